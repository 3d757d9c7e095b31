namespace VatWatch.Charts.Traces;

/// <summary>Why there is no value.</summary>
internal enum OutageKind
{
    /// <summary>Nothing was recorded.</summary>
    NoRecord,

    /// <summary>The probe was asked and gave nothing.</summary>
    NoAnswer,

    /// <summary>The probe or its bus reported a fault.</summary>
    Fault,
}

/// <summary>A stretch without a value of one probe.</summary>
/// <param name="Kind">Why.</param>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC: the next reading of another kind, or the end of the record.</param>
/// <param name="Length">How long, by the steadier of the two clocks.</param>
/// <param name="Readings">Readings that said so; 0 when nothing was recorded.</param>
/// <param name="Reason">The first of their reasons; null when nothing was recorded.</param>
/// <param name="IsLong">Whether it is longer than a line may bridge.</param>
internal sealed record Outage(
    ProbeId Probe, OutageKind Kind, DateTimeOffset From, DateTimeOffset To, TimeSpan Length, int Readings, string? Reason, bool IsLong);
