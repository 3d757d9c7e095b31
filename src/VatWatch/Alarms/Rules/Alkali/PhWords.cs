namespace VatWatch.Alarms.Rules.Alkali;

/// <summary>What the two alarms of alkali share.</summary>
internal static class PhWords
{
    /// <summary>A composition past its limit for a quarter of an hour; a deadband wider than the noise of a pH electrode.</summary>
    public static AlarmRuleSettings Defaults { get; } = AlarmRuleSettings.Of(AlarmPriority.Medium, "0:15:00", "0:05:00", "1:00:00", deadband: 0.1);

    /// <summary>The sentence; <paramref name="trouble"/> and <paramref name="side"/> name the trouble and the side of the border.</summary>
    public static Sentence Tell(string vat, double? ph, double border, AlarmTelling telling, string trouble, string side) => (ph, telling) switch
    {
        (null, AlarmTelling.Well) => new($"{vat} has no pH to judge."),
        (null, _) => new($"{vat} was {trouble}, and its pH cannot be read now."),
        ({ } value, AlarmTelling.Trouble) => new($"{vat} is {trouble}: {value:pH}, {(Math.Abs(value - border) < 0.01 ? "just " : "")}{side} {border:pH}."),
        ({ } value, AlarmTelling.Watched) => new($"{vat} was {trouble} and is watched until it stays right: {value:pH}, border {border:pH}."),
        ({ } value, _) => new($"{vat} is not {trouble}: {value:pH}, border {border:pH}."),
    };
}
