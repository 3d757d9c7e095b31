using System.Globalization;
using VatWatch.Vats;

namespace VatWatch.Conditions;

/// <summary>
/// Chooses the state word and says why. A border that was crossed must be re-crossed by a margin before the word changes back, so that
/// noise does not make it flicker. Not thread safe; one per vat.
/// </summary>
internal sealed class StateJudge(VatDefinition vat, DisplayUnits units)
{
    /// <summary>Margins of hysteresis; the same size as the usual alarm deadbands (EEMUA 191 as quoted: 1 % of range).</summary>
    private const double TemperatureMarginC = 0.3;
    private const double PhMargin = 0.05;
    private const double OrpMarginMillivolts = 10;

    /// <summary>A slower rise than this is not warming (about 90 W in a 40 gal vat).</summary>
    private const double LeastRiseKPerHour = 0.5;

    private VatState _state = VatState.Unknown;

    public (VatState State, IReadOnlyList<string> Reasons) Judge(Evidence evidence)
    {
        var (state, reasons) = Decide(evidence);
        _state = state;
        return (state, reasons);
    }

    private (VatState, IReadOnlyList<string>) Decide(Evidence seen)
    {
        if (seen.TemperatureC is not { } liquorC)
        {
            return (VatState.Unknown, [Sentence(seen.NoTemperature!)]);
        }

        if (liquorC > vat.Temperature.HighC - Margin(VatState.TooHot, TemperatureMarginC))
        {
            return (VatState.TooHot, [TooHot(liquorC, seen)]);
        }

        var inBand = liquorC >= vat.Temperature.LowC - (IsBelowBand(_state) ? 0 : TemperatureMarginC);
        if (!inBand)
        {
            return BelowBand(liquorC, seen);
        }

        if ((seen.NoOrp ?? seen.NoPh) is { } why)
        {
            return (VatState.Unknown, [Sentence(why)]);
        }

        return Reduction(seen) ?? Alkali(seen) ?? (VatState.Ready, [Ready(liquorC, seen)]);
    }

    private (VatState, IReadOnlyList<string>) BelowBand(double liquorC, Evidence seen)
    {
        var below = $"The liquor is at {units.Temperature(liquorC)}, below {units.Temperature(vat.Temperature.LowC)}";
        return seen.TemperatureTrend is { } trend && trend.PerHour > LeastRiseKPerHour
            ? (VatState.Warming, [$"{below}, and rises by {units.TemperatureRate(trend.PerHour)}."])
            : (VatState.TooCold, [$"{below}, and does not rise."]);
    }

    private (VatState, IReadOnlyList<string>)? Reduction(Evidence seen)
    {
        if (vat.Orp is not { } limits || seen.OrpMillivolts is not { } millivolts)
        {
            return null;
        }

        if (millivolts > limits.OxidisedMillivolts - Margin(VatState.Oxidised, OrpMarginMillivolts))
        {
            return (VatState.Oxidised, [$"ORP is {Millivolts(millivolts)}, above {Millivolts(limits.OxidisedMillivolts)}: the vat is oxidised."]);
        }

        return millivolts > limits.WeakMillivolts - Margin(VatState.Weak, OrpMarginMillivolts)
            ? (VatState.Weak, [$"ORP is {Millivolts(millivolts)}, above {Millivolts(limits.WeakMillivolts)}: the reduction is weak."])
            : null;
    }

    private (VatState, IReadOnlyList<string>)? Alkali(Evidence seen)
    {
        if (vat.Ph is not { } band || seen.Ph is not { } ph || seen.TemperatureC is not { } liquorC)
        {
            return null;
        }

        var at = string.Create(CultureInfo.InvariantCulture, $"pH is {ph:0.00} at {units.Temperature(liquorC)}");
        if (ph < band.Low + Margin(VatState.AlkaliLow, PhMargin))
        {
            return (VatState.AlkaliLow, [string.Create(CultureInfo.InvariantCulture, $"{at}, below {band.Low:0.0#}: the alkali is low.")]);
        }

        return ph > band.High - Margin(VatState.AlkaliHigh, PhMargin)
            ? (VatState.AlkaliHigh, [string.Create(CultureInfo.InvariantCulture, $"{at}, above {band.High:0.0#}: too much alkali.")])
            : null;
    }

    private string TooHot(double liquorC, Evidence seen)
    {
        var over = liquorC >= vat.Temperature.LimitC ? $"over the limit of {units.Temperature(vat.Temperature.LimitC)}" : $"above {units.Temperature(vat.Temperature.HighC)}";
        var heading = seen.TemperatureTrend is { } trend && Math.Abs(trend.PerHour) > LeastRiseKPerHour
            ? $", and {(trend.PerHour > 0 ? "rises" : "falls")} by {units.TemperatureRate(Math.Abs(trend.PerHour))}"
            : "";
        return $"The liquor is at {units.Temperature(liquorC)}, {over}{heading}.";
    }

    private string Ready(double liquorC, Evidence seen)
    {
        var parts = new List<string> { $"the liquor is at {units.Temperature(liquorC)}" };
        if (seen.Ph is { } ph)
        {
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"pH is {ph:0.00}"));
        }

        if (seen.OrpMillivolts is { } millivolts)
        {
            parts.Add($"ORP is {Millivolts(millivolts)}");
        }

        return $"All is in its band: {string.Join(", ", parts)}.";
    }

    private double Margin(VatState state, double margin) => _state == state ? margin : 0;

    private static bool IsBelowBand(VatState state) => state is VatState.Warming or VatState.TooCold;

    private static string Millivolts(double value) => string.Create(CultureInfo.InvariantCulture, $"{value:0} mV");

    private static string Sentence(string clause) => $"{char.ToUpperInvariant(clause[0])}{clause[1..]}.";
}
