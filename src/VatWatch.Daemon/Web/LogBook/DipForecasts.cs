using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Pipeline;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>Asks the vat's condition what a dip will do.</summary>
internal static class DipForecasts
{
    /// <summary>The outlook; null with a sentence while the vat's heat or temperature is not known, or no dip should be thought of.</summary>
    /// <param name="yarnGrams">Dry weight of the yarn, g; above 0.</param>
    /// <param name="tally">The session so far; null without one.</param>
    /// <param name="whyNot">Why there is none.</param>
    public static DipOutlook? For(LiveVat live, double yarnGrams, SessionTally? tally, DisplayUnits units, out string whyNot)
    {
        whyNot = "What a dip will do is not known: there is no good temperature of the liquor.";
        var (condition, limitC) = (live.Condition, live.Definition.Temperature.LimitC);
        if (condition.TemperatureC >= limitC)
        {
            whyNot = $"No dip now: the liquor is at or above its limit of {units.Temperature(limitC)}. Let it cool first.";
            return null;
        }

        if (condition.State == VatState.Oxidised)
        {
            whyNot = "No dip now: the vat is oxidised, and dye that it takes up washes out. Sharpen it and let it turn first.";
            return null;
        }

        return live.Condition is { Heat: { } heat, TemperatureC: { } liquorC }
            ? DipOutlook.Of(heat, liquorC, live.Definition.Temperature.LowC, yarnGrams, tally?.UsualDip, tally?.UsualAiring, live.Condition.Recoveries, units)
            : null;
    }
}
