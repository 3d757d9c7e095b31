using VatWatch.Charts.Figures;
using VatWatch.Charts.Recipes;

namespace VatWatch.Charts.Reports.Content;

/// <summary>
/// What a session's figures suggest for the next one, in two or three plain sentences. The rules, in order of weight; the first three that hold are told:
/// <list type="number">
/// <item>At or above the limit for a minute or more: switch off earlier by the time from leaving the band to the hottest moment, or let a thermostat do it.</item>
/// <item>Above the threshold of an oxidised vat for five minutes or more: look for air, sharpen, dip only when it has come back.</item>
/// <item>Below the band at the first dip by more than 0.5 K: switch on earlier by the time that the heat balance still wanted, rounded up to 5 min.</item>
/// <item>A recovery took more than 1.5 times the first one and at least 5 min longer, or the vat did not come back: sharpen before that dip.</item>
/// <item>Margin of reduction at a dip weaker than its own uncertainty: wait longer or sharpen before that dip.</item>
/// <item>Last pH outside the band, or 0.3 away from the first: soda ash, or none.</item>
/// <item>An alarm of medium priority or more was still on at the end: see to it.</item>
/// <item>None of these: do the same again.</item>
/// </list>
/// The factors are engineering choices, no source; they lie above what the probes scatter.
/// </summary>
internal static class NextTime
{
    private const int Most = 3;
    private const double ColdK = 0.5;
    private const double SlowerTimes = 1.5;
    private const double PhDrift = 0.3;
    private static readonly TimeSpan LeastAboveLimit = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan LeastOxidised = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan SlowerBy = TimeSpan.FromMinutes(5);

    /// <summary>The sentences; never none.</summary>
    public static IReadOnlyList<string> Of(NextTimeFacts facts, DisplayUnits units)
    {
        string[] told =
        [
            .. new[] { OverLimit(facts), Oxidised(facts), TooCold(facts, units), SlowRecovery(facts), WeakMargin(facts), Alkali(facts), StillOn(facts) }.OfType<string>().Take(Most),
        ];
        return told.Length > 0 ? told : [Again(facts)];
    }

    private static string? OverLimit(NextTimeFacts facts) => facts.AboveLimit < LeastAboveLimit
        ? null
        : $"The liquor was at or above the limit for {DisplayUnits.Duration(facts.AboveLimit)}: "
            + (facts.OvershootTime is { TotalMinutes: >= 1 } overshoot ? $"switch the heater off {DisplayUnits.Duration(overshoot)} earlier, or let a thermostat do it." : "let a thermostat switch the heater off.");

    private static string? Oxidised(NextTimeFacts facts) => facts.Oxidised < LeastOxidised
        ? null
        : $"The vat stood oxidised for {DisplayUnits.Duration(facts.Oxidised)}: {(facts.LongOpen ? "keep the lid on" : "look for where air comes in")}, and sharpen before yarn goes in.";

    private static string? TooCold(NextTimeFacts facts, DisplayUnits units)
    {
        if (facts.FirstDipAboveLowK is not < -ColdK)
            return null;
        var cold = $"At the first dip the liquor was {units.Text(-facts.FirstDipAboveLowK.Value, "K")} below the band";
        return facts.ToBandAtFirstDip is { } needed
            ? $"{cold}: switch the heater on about {DisplayUnits.Duration(TimeSpan.FromMinutes(5 * Math.Ceiling(needed.TotalMinutes / 5)))} earlier."
            : $"{cold}: switch the heater on earlier, or dip later.";
    }

    private static string? SlowRecovery(NextTimeFacts facts)
    {
        var recoveries = facts.Recoveries;
        if (recoveries is not [{ } first, ..])
            return null;
        for (var i = 1; i < recoveries.Count; i++)
        {
            if (recoveries[i] is { } slow && (slow <= first * SlowerTimes || slow - first < SlowerBy))
                continue;
            var seen = recoveries[i] is { } time ? $"the vat took {DisplayUnits.Duration(time)} to come back" : "the vat did not come back";
            return $"After dip {i + 1} {seen}, after the first {DisplayUnits.Duration(first)}: sharpen before dip {i + 1}.";
        }

        return null;
    }

    private static string? WeakMargin(NextTimeFacts facts) => facts.WeakestMargin is { } weakest && weakest.Millivolts > -facts.MarginUncertainty
        ? $"At dip {weakest.Dip} the margin of reduction was {Words.Number(weakest.Millivolts, 0)} mV, within its uncertainty of half reduced: wait longer or sharpen before that dip."
        : null;

    private static string? Alkali(NextTimeFacts facts)
    {
        if (facts.Ph is not { } ph)
            return null;
        var change = ph.Last - ph.First;
        var (from, to) = (Words.Number(ph.First, 2), Words.Number(ph.Last, 2));
        if (facts.PhBand is { } low && ph.Last < low.Low)
            return $"pH ended at {to}, below the band: add soda ash before the next session (vatwatch dose alkali says how much).";
        if (facts.PhBand is { } high && ph.Last > high.High)
            return $"pH ended at {to}, above the band: add no soda ash before the next session.";
        return change <= -PhDrift ? $"pH fell from {from} to {to}: measure it before the next session, and add soda ash when it nears the low end of the band." : null;
    }

    private static string? StillOn(NextTimeFacts facts) => facts.StillOn.Count == 0
        ? null
        : $"Still on at the end: {string.Join(", ", facts.StillOn)}. See to {(facts.StillOn.Count == 1 ? "it" : "them")} before the next session.";

    private static string Again(NextTimeFacts facts)
    {
        var dips = facts.Dips switch { 0 => "", 1 => " and 1 dip", _ => $" and {facts.Dips} dips" };
        return facts.InBand > TimeSpan.Zero
            ? $"Nothing stood out in {DisplayUnits.Duration(facts.InBand)} in the band{dips}: do the same again."
            : "Nothing stood out; too little was recorded to suggest more.";
    }
}
