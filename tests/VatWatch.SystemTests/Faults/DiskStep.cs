namespace VatWatch.SystemTests.Faults;

/// <summary>What a step of a <see cref="DiskTrace"/> did.</summary>
internal enum DiskAct
{
    /// <summary>Opened a file that was made if it was not there; <see cref="DiskStep.Path"/>.</summary>
    Create,
    Write,
    Truncate,

    /// <summary>A file or folder is on the disk as it was when the call began.</summary>
    Flush,
    MakeFolder,

    /// <summary>From <see cref="DiskStep.Path"/> to <see cref="DiskStep.Other"/>.</summary>
    Rename,
    Link,
    Remove,

    /// <summary>Bytes to a socket (<see cref="DiskStep.Path"/> names it) or to a pipe or terminal.</summary>
    Say,
}

/// <summary>One system call of a traced program that touches its disk or tells somebody something.</summary>
/// <param name="Act">What it did.</param>
/// <param name="Time">When it began; for a flush, when it returned. Seconds since 1970.</param>
/// <param name="Path">File, folder or socket.</param>
/// <param name="Other">The other name of a rename or link.</param>
/// <param name="At">Offset of a write, length of a truncation, or for a flush the number of steps before its call began.</param>
/// <param name="Bytes">What was written or said.</param>
internal sealed record DiskStep(DiskAct Act, double Time, string Path, string Other, long At, byte[] Bytes);
