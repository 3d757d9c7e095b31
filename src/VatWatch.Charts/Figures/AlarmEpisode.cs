using VatWatch.Alarms;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Figures;

/// <summary>One standing of one alarm, from entering to return.</summary>
public sealed record AlarmEpisode
{
    /// <summary>The vat, or the daemon.</summary>
    public required VatId Vat { get; init; }

    public required AlarmName Alarm { get; init; }

    public required AlarmPriority Priority { get; init; }

    /// <summary>What it said on entering.</summary>
    public required Sentence Text { get; init; }

    /// <summary>When it entered; may be before the record.</summary>
    public required Stamp Entered { get; init; }

    /// <summary>When somebody acknowledged it; null when nobody has, or not within the record.</summary>
    public Stamp? Acknowledged { get; init; }

    /// <summary>Who; null when not told.</summary>
    public string? AcknowledgedBy { get; init; }

    /// <summary>When the condition had gone; null when it still stood, or when it was set aside first.</summary>
    public Stamp? Returned { get; init; }

    /// <summary>When it was shelved, taken out of service or suppressed while it stood.</summary>
    public Stamp? SetAside { get; init; }

    public TimeSpan? TimeToAcknowledge => Acknowledged is { } seen ? Elapsed.Between(Entered, seen) : null;

    /// <summary>Whether it still stands, acknowledged or not, at the end of the record.</summary>
    public bool Stands => Returned is null && SetAside is null;
}
