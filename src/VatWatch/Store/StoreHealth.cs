namespace VatWatch.Store;

/// <summary>How the store is doing, at one moment.</summary>
/// <param name="FailingSince">When commits began to fail (wall clock); null while they succeed.</param>
/// <param name="Reason">Why they fail, in words; null while they succeed.</param>
/// <param name="Buffered">Readings in memory that are not on disk yet.</param>
/// <param name="Dropped">Readings lost since the store was opened because the buffer was full.</param>
/// <param name="LastCommit">When something last reached the disk; null when nothing has yet.</param>
/// <param name="Quarantined">A sentence about a damaged database that was set aside since the store was opened, or one that was empty or gone; null when there was none.</param>
public sealed record StoreHealth(
    DateTimeOffset? FailingSince,
    string? Reason,
    int Buffered,
    long Dropped,
    DateTimeOffset? LastCommit,
    string? Quarantined)
{
    /// <summary>A sentence about rows that cannot be read and are passed over, as far as anybody has met them; null when there are none.</summary>
    public string? Unreadable { get; init; }

    /// <summary>Whether commits succeed.</summary>
    public bool Ok => FailingSince is null;
}
