namespace VatWatch.Alarms;

/// <summary>A finding told to the dyer.</summary>
/// <param name="Text">One plain sentence.</param>
internal readonly record struct AlarmMessage(string Text)
{
    /// <summary>The value in <see cref="Unit"/>, rounded as people read it.</summary>
    public double? Value { get; init; }

    /// <summary>The limit in <see cref="Unit"/>.</summary>
    public double? Limit { get; init; }

    /// <summary>Unit in the dyer's system; null or empty without a number.</summary>
    public string? Unit { get; init; }

    /// <summary>What to do in this very case; null for what the rationalisation says.</summary>
    public string? Action { get; init; }
}
