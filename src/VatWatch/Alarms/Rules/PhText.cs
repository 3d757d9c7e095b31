namespace VatWatch.Alarms.Rules;

/// <summary>How the two alarms of alkali are told.</summary>
internal static class PhText
{
    /// <summary>A telling with its numbers to a hundredth of pH; <paramref name="trouble"/> and <paramref name="side"/> name the trouble and the side of the band.</summary>
    public static AlarmMessage Message(RuleContext context, in AlarmFinding finding, bool stands, string trouble, string side) =>
        new(Sentence(context, finding, stands, trouble, side))
        {
            Value = finding.Value is { } value ? Math.Round(value, 2) : null,
            Limit = finding.Limit,
            Unit = "pH",
        };

    private static string Sentence(RuleContext context, in AlarmFinding finding, bool stands, string trouble, string side)
    {
        var vat = context.Vat.Name;
        if (finding is not { Value: { } value, Limit: { } limit })
        {
            return stands ? $"{vat} was {trouble}, and its pH cannot be read now." : $"{vat} has no pH to judge.";
        }

        var (shown, border) = (context.Units.Value(Quantity.Ph, value), context.Units.Value(Quantity.Ph, limit));
        return (finding.Signal, stands) switch
        {
            (AlarmSignal.Met, _) => $"{vat} is {trouble}: {shown}, {side} {border}.",
            (_, true) => $"{vat} was {trouble} and is watched until it stays right: {shown}, border {border}.",
            _ => $"{vat} is not {trouble}: {shown}, border {border}.",
        };
    }
}
