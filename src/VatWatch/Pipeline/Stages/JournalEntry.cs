using VatWatch.Alarms;

namespace VatWatch.Pipeline.Stages;

/// <summary>Alarm changes that belong together, and whoever waits until they are on disk.</summary>
internal sealed record JournalEntry(IReadOnlyList<AlarmChange> Changes, TaskCompletionSource<bool>? Outcome)
{
    /// <summary>What people are to be told of them.</summary>
    public IReadOnlyList<Message> Messages { get; set; } = [];

    /// <summary>True once people were told without the disk, so that they are not told again.</summary>
    public bool Told { get; set; }
}
