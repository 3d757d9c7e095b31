namespace VatWatch.Alarms;

/// <summary>What a rule finds when it looks at the evidence: the condition and the numbers behind it, in canonical units.</summary>
/// <param name="Signal">Whether the condition is met.</param>
/// <param name="Priority">How much it matters just now.</param>
internal readonly record struct AlarmFinding(AlarmSignal Signal, AlarmPriority Priority)
{
    /// <summary>The value behind the signal; null when there is none.</summary>
    public double? Value { get; init; }

    /// <summary>What the value stands against.</summary>
    public double? Limit { get; init; }

    /// <summary>Steps by which the condition is worse than its limit; a higher one than before is told again.</summary>
    public int Level { get; init; }

    /// <summary>Whether another state of the vat makes the alarm meaningless just now.</summary>
    public bool Suppressed { get; init; }

    /// <summary>A clause or sentence from the evidence itself, such as a probe's own reason.</summary>
    public string? Note { get; init; }
}
