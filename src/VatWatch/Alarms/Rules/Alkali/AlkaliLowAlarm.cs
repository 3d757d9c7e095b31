namespace VatWatch.Alarms.Rules.Alkali;

/// <summary><c>alkali-low</c>: pH has stayed below the band.</summary>
internal static class AlkaliLowAlarm
{
    public static AlarmKind Kind { get; } = new("alkali-low", PhWords.Defaults)
    {
        DeadbandMost = 1,
        RulesFor = context => context.Vat.Ph is { } band ? [Rule(context, band)] : [],
    };

    private static LimitRule Rule(RuleContext context, PhBand band) => new(context, Kind)
    {
        Rationale = new(
            "Alkali is eaten by the reducing agent, by air and by the yarn.",
            "The dye dissolves and takes poorly, and the reduction slows down.",
            "Read again with the probe rinsed. Then, goggles and gloves on, add alkali dissolved in water in small portions as the dosing page works out, with time to mix in between.",
            "hours"),
        Limit = band.Low,
        Unit = "pH",
        IsBelow = true,
        Value = condition => condition.PhWhenWarm ?? condition.Ph,
        Words = (ph, telling, _) => PhWords.Tell(context.Vat.Name, ph, band.Low, telling, "short of alkali", "below"),
    };
}
