namespace VatWatch.Probes;

/// <summary>What one attempt to read a probe gave, in the probe's own unit and before any stamp or calibration.</summary>
/// <param name="Value">The value as delivered; null unless <paramref name="Quality"/> is good or suspect.</param>
/// <param name="Quality">Good, or why not.</param>
/// <param name="Reason">In words, for anything but good.</param>
public readonly record struct Sample(double? Value, Quality Quality, string? Reason)
{
    /// <summary>A value as delivered.</summary>
    public static Sample Good(double value) => new(value, Quality.Good, null);

    /// <summary>A value that the probe itself marks as doubtful.</summary>
    public static Sample Suspect(double value, string reason) => new(value, Quality.Suspect, reason);

    /// <summary>No answer.</summary>
    public static Sample Missing(string reason) => new(null, Quality.Missing, reason);

    /// <summary>An answer that is no value.</summary>
    public static Sample Fault(string reason) => new(null, Quality.Fault, reason);
}
