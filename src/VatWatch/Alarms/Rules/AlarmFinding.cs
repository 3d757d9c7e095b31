namespace VatWatch.Alarms.Rules;

/// <summary>What a rule finds when it looks at the evidence: the condition and the numbers behind it.</summary>
/// <param name="Signal">Whether the condition is met.</param>
/// <param name="Priority">How much it matters just now.</param>
internal readonly record struct AlarmFinding(AlarmSignal Signal, AlarmPriority Priority)
{
    /// <summary>The value behind the signal, in <see cref="Unit"/>; null when there is none.</summary>
    public double? Value { get; init; }

    /// <summary>What the value stands against, in <see cref="Unit"/>.</summary>
    public double? Limit { get; init; }

    /// <summary>Canonical unit of both; null for an alarm without a number.</summary>
    public string? Unit { get; init; }

    /// <summary>Steps by which the condition is worse than its limit; a higher one than before is told again.</summary>
    public int Level { get; init; }

    /// <summary>Which of several causes it has, 0 to 63; one that was not found since the alarm entered, and matters no less, is told at once. Null where there is only one.</summary>
    public int? Cause { get; init; }

    /// <summary>Whether the value has come back past its limit, only not by its deadband yet: what stands goes on to stand, and nothing begins to.</summary>
    public bool IsBack { get; init; }

    /// <summary>Whether another state of the vat makes the alarm meaningless just now.</summary>
    public bool Suppressed { get; init; }

    /// <summary>A clause or sentence from the evidence itself, such as a probe's own reason.</summary>
    public Sentence? Note { get; init; }

    /// <summary>What to do in this very case; null for what the rationalisation says.</summary>
    public string? Action { get; init; }
}

/// <summary>What the evidence says about an alarm's condition at one moment, before any delay.</summary>
internal enum AlarmSignal
{
    /// <summary>The evidence is missing or not good enough to say. Never reads as clear.</summary>
    Unknown,

    /// <summary>The condition is not met.</summary>
    Clear,

    /// <summary>The condition is met.</summary>
    Met,
}
