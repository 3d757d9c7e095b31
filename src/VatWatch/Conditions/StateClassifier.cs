using VatWatch.Conditions.Liquor;
using VatWatch.Conditions.Reduction;
using VatWatch.Science.Indigo;

namespace VatWatch.Conditions;

/// <summary>
/// Chooses the state word and says why. A border that was crossed must be re-crossed by a margin before the word changes back, so that
/// noise does not make it flicker. Not thread safe; one per vat.
/// </summary>
internal sealed class StateClassifier(VatDefinition vat, DisplayUnits units)
{
    /// <summary>Margins of hysteresis; the same size as the usual alarm deadbands (EEMUA 191 as quoted: 1 % of range).</summary>
    private const double TemperatureMarginC = 0.3;
    private const double PhMargin = 0.05;
    private const double OrpMarginMillivolts = 10;

    /// <summary>
    /// Uncertainty of the readings themselves, shown beside them: a pH electrode calibrated with two buffers in strong alkali, a platinum
    /// electrode that dye films over (indigo chemistry reference, 20 to 50 mV), an ordinary thermometer. From memory; engineering choices.
    /// </summary>
    private const double PhUncertainty = 0.1;
    private const double OrpUncertaintyMillivolts = 20;
    private const double TemperatureUncertaintyK = 0.5;

    /// <summary>Beyond its uncertainty a margin above these says weak or oxidised (proposed thresholds for chemical vats).</summary>
    private static readonly double WeakMargin = ReductionThresholds.ChemicalMargin.WeakUpToMillivolts;
    private static readonly double OxidisedMargin = ReductionThresholds.ChemicalMargin.TurningUpToMillivolts;

    /// <summary>A slower rise than this is not warming (about 90 W in a 40 gal vat).</summary>
    private const double LeastRiseKPerHour = 0.5;

    private VatState _state = VatState.Unknown;

    /// <summary>The word, and its reasons, which are written when somebody reads them: the word is asked for every second, the reasons seldom.</summary>
    public (VatState State, IReadOnlyList<string> Reasons) Classify(Evidence evidence)
    {
        var (state, write) = Decide(evidence);
        _state = state;
        return (state, new LateSentences(write));
    }

    private (VatState, Func<IReadOnlyList<string>>) Decide(Evidence seen)
    {
        if (seen.TemperatureC is not { } liquorC)
        {
            return (VatState.Unknown, () => [Sentence(seen.NoTemperature!)]);
        }

        if (liquorC > vat.Temperature.HighC - Margin(VatState.TooHot, TemperatureMarginC))
        {
            return (VatState.TooHot, () => [TooHot(liquorC, seen)]);
        }

        var inBand = liquorC >= vat.Temperature.LowC - (IsBelowBand(_state) ? 0 : TemperatureMarginC);
        if (!inBand)
        {
            return BelowBand(liquorC, seen);
        }

        if ((seen.NoOrp ?? seen.NoPh) is { } why)
        {
            return (VatState.Unknown, () => [Sentence(why)]);
        }

        return Resting(seen, liquorC) ?? Reduction(seen, liquorC) ?? Alkali(seen) ?? (VatState.Ready, () => [Ready(liquorC, seen)]);
    }

    private (VatState, Func<IReadOnlyList<string>>) BelowBand(double liquorC, Evidence seen)
    {
        return seen.TemperatureTrend switch
        {
            null => (IsBelowBand(_state) ? _state : VatState.TooCold, () => [$"{Below()}; whether it rises shows after some minutes of readings."]),
            { PerHour: > LeastRiseKPerHour } trend => (VatState.Warming, () => [$"{Below()}, and rises by {Rate(trend)}."]),
            _ => (VatState.TooCold, () => [$"{Below()}, and does not rise."]),
        };

        string Below() => $"The liquor is at {Temperature(liquorC)}, below {units.Temperature(vat.Temperature.LowC)}";
    }

    /// <summary>A transient is rest, unless it has taken the vat into oxidation and does not come back.</summary>
    private (VatState, Func<IReadOnlyList<string>>)? Resting(Evidence seen, double liquorC)
    {
        if (seen is not { Resting: { } rest, OrpMillivolts: { } millivolts })
        {
            return null;
        }

        if (vat.Orp is { } limits && millivolts > limits.OxidisedMillivolts && !rest.IsRecovering)
        {
            return null;
        }

        return (VatState.Resting, () => [$"ORP {Moves(rest, millivolts)}: {Orp(millivolts, liquorC)}, and it was {Millivolts(rest.BeforeMillivolts)} before."]);
    }

    private static string Moves(RestingFrom rest, double millivolts)
    {
        var since = $"what went in {DisplayUnits.Duration(rest.Since)} ago";
        return rest.IsRecovering ? $"is recovering from {since}" : $"{(millivolts > rest.BeforeMillivolts ? "has risen" : "has fallen")} since {since}";
    }

    private (VatState, Func<IReadOnlyList<string>>)? Reduction(Evidence seen, double liquorC)
    {
        if (vat.Orp is not { } limits || seen.OrpMillivolts is not { } millivolts)
        {
            return null;
        }

        if (!seen.IsDriftDoubted && millivolts > limits.OxidisedMillivolts - Margin(VatState.Oxidised, OrpMarginMillivolts))
        {
            return (VatState.Oxidised, () => [$"ORP is {Orp(millivolts, liquorC)}, above {Millivolts(limits.OxidisedMillivolts)}: the vat is oxidised.", .. Drift(seen)]);
        }

        if (!seen.IsDriftDoubted && Surely(seen.Margin, OxidisedMargin, VatState.Oxidised) is { } blue)
        {
            return (VatState.Oxidised, () => [$"{FromHalf(blue)}: the vat is oxidised.", .. Drift(seen)]);
        }

        if (millivolts > limits.WeakMillivolts - Margin(VatState.Weak, OrpMarginMillivolts))
        {
            return (VatState.Weak, () => [$"ORP is {Orp(millivolts, liquorC)}, above {Millivolts(limits.WeakMillivolts)}: the reduction is weak.", .. Drift(seen)]);
        }

        return Surely(seen.Margin, WeakMargin, VatState.Weak) is { } pale
            ? (VatState.Weak, () => [$"{FromHalf(pale)}: the reduction is weak.", .. Drift(seen)])
            : null;
    }

    /// <summary>The margin if it lies above a threshold even at the favourable end of its uncertainty.</summary>
    private ReductionMargin? Surely(ReductionMargin? margin, double threshold, VatState state) =>
        margin is { } known && known.Millivolts - known.UncertaintyMillivolts > threshold - Margin(state, OrpMarginMillivolts) ? known : null;

    private static string FromHalf(ReductionMargin margin) =>
        $"At this pH and temperature ORP lies {margin.Millivolts:+0;−0;0} ± {margin.UncertaintyMillivolts:0} mV from where half of the indigo is reduced";

    private static IEnumerable<string> Drift(Evidence seen) => seen.OrpTrend is { } trend && Math.Abs(trend.PerHour) > 2 * trend.StandardError
        ? [$"ORP {(trend.PerHour > 0 ? "rises" : "falls")} by {Math.Abs(trend.PerHour):0} ± {1.645 * trend.StandardError:0} mV/h."]
        : [];

    private (VatState, Func<IReadOnlyList<string>>)? Alkali(Evidence seen)
    {
        if (vat.Ph is not { } band || seen.Ph is not { } ph || seen.PhWhenWarm is not { } warmPh || seen.TemperatureC is not { } liquorC)
        {
            return null;
        }

        if (warmPh < band.Low + Margin(VatState.AlkaliLow, PhMargin))
        {
            return (VatState.AlkaliLow, () => [$"{At()}, below {band.Low:0.0#}: the alkali is low."]);
        }

        return warmPh > band.High - Margin(VatState.AlkaliHigh, PhMargin)
            ? (VatState.AlkaliHigh, () => [$"{At()}, above {band.High:0.0#}: too much alkali."])
            : null;

        string At() => $"pH is {ph:0.00} ± {PhUncertainty:0.0} at {units.Temperature(liquorC)}";
    }

    private string TooHot(double liquorC, Evidence seen)
    {
        var over = liquorC >= vat.Temperature.LimitC ? $"over the limit of {units.Temperature(vat.Temperature.LimitC)}" : $"above {units.Temperature(vat.Temperature.HighC)}";
        var heading = seen.TemperatureTrend is { } trend && Math.Abs(trend.PerHour) > LeastRiseKPerHour
            ? $", and {(trend.PerHour > 0 ? "rises" : "falls")} by {Rate(trend)}"
            : "";
        return $"The liquor is at {Temperature(liquorC)}, {over}{heading}.";
    }

    private string Ready(double liquorC, Evidence seen)
    {
        var parts = new List<string> { $"the liquor is at {Temperature(liquorC)}" };
        if (seen.Ph is { } ph)
        {
            parts.Add($"pH is {ph:0.00} ± {PhUncertainty:0.0} at that temperature");
        }

        if (seen.OrpMillivolts is { } millivolts)
        {
            parts.Add($"ORP is {millivolts:0;−0} ± {OrpUncertaintyMillivolts:0} mV against {vat.Orp?.Reference ?? "the probe's reference electrode"}");
        }

        return $"All is in its band: {string.Join(", ", parts)}.";
    }

    private string Temperature(double liquorC) =>
        $"{units.Temperature(liquorC)} (± {units.FromKelvinDifference(TemperatureUncertaintyK):0.0})";

    private string Orp(double millivolts, double liquorC) =>
        $"{millivolts:0;−0} ± {OrpUncertaintyMillivolts:0} mV at {units.Temperature(liquorC)}";

    private string Rate(Trend trend) => $"{units.TemperatureRate(Math.Abs(trend.PerHour))} (± {units.FromKelvinDifference(1.645 * trend.StandardError):0.0})";

    private double Margin(VatState state, double margin) => _state == state ? margin : 0;

    private static bool IsBelowBand(VatState state) => state is VatState.Warming or VatState.TooCold;

    private static string Millivolts(double value) => $"{value:0;−0} mV";

    private string Sentence(string clause) => units.Words($"{clause.Capitalized()}.");
}
