namespace VatWatch.Alarms.Rules.Alkali;

/// <summary><c>alkali-high</c>: pH has stayed above the band. The harmful side for wool and silk.</summary>
internal static class AlkaliHighAlarm
{
    private const string Thin =
        "Read again with the probe rinsed and the vat mixed, then thin it with warm water. Never add acid: it drives harmful gas out of the vat.";

    public static AlarmKind Kind { get; } = new("alkali-high", PhWords.Defaults)
    {
        DeadbandMost = 1,
        RulesFor = context => context.Vat.Ph is { } band ? [Rule(context, band)] : [],
    };

    private static LimitRule Rule(RuleContext context, PhBand band) => new(context, Kind)
    {
        Rationale = new(
            "Too much alkali was added, or added faster than it mixed.",
            context.Vat.Fibre == Fibre.Protein ? "Wool and silk turn harsh and weak." : "Dye is taken less well, and the liquor is harder on hands.",
            context.Vat.Fibre == Fibre.Protein ? $"Keep wool and silk out. {Thin}" : Thin,
            "before the next dip"),
        Limit = band.High,
        Unit = "pH",
        Value = condition => condition.PhWhenWarm ?? condition.Ph,
        Words = (ph, telling, _) => PhWords.Tell(context.Vat.Name, ph, band.High, telling, "too alkaline", "above"),
    };
}
