using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Vats.Figures;

/// <summary>What was worked out of a vat, number by number with its uncertainty, as lines for a page.</summary>
/// <param name="Lines">What it is, and what it comes to.</param>
/// <param name="Diagnoses">What seems wrong, in sentences.</param>
public sealed record WorkedOutView(IReadOnlyList<(string Label, string Words)> Lines, IReadOnlyList<string> Diagnoses)
{
    /// <summary>Half-width of a 90 % band in standard deviations, as the forecasts use it.</summary>
    private const double Band = 1.645;

    private const int RecoveriesShown = 3;

    public static WorkedOutView Of(VatCondition condition, VatDefinition vat, PageFacts page)
    {
        var writer = new Writer(condition, vat, page.Site.Units, page.Clock);
        return new([.. writer.Lines()], [.. condition.Diagnoses.Select(one => one.Sentence.In(page.Site.Units))]);
    }

    private sealed class Writer(VatCondition condition, VatDefinition vat, DisplayUnits units, LocalClock clock)
    {
        public IEnumerable<(string Label, string Words)> Lines() =>
        [
            .. Forecasts(),
            .. Rates(),
            .. condition.Heat is { } heat ? Heat(heat) : [],
            .. condition.Margin is { } margin ? [Margin(margin)] : Array.Empty<(string, string)>(),
            .. condition.FromGoodDays is { } away ? [GoodDays(away)] : Array.Empty<(string, string)>(),
            .. condition.Recoveries.Reverse().Take(RecoveriesShown).Select(Recovered),
        ];

        private IEnumerable<(string, string)> Forecasts()
        {
            if (condition.TimeToBand is null && condition.NoTimeToBand is { } noBand)
            {
                yield return ("Time to the band", $"None: {noBand}.");
            }

            if (condition.TimeToLimit is null && condition.NoTimeToLimit is { } noLimit)
            {
                yield return ("Time to the limit", noLimit.EndsWith("at the limit or above it", StringComparison.Ordinal) ? "Already at the limit or over it." : $"None: {noLimit}.");
            }
        }

        private IEnumerable<(string, string)> Rates()
        {
            if (condition.TemperatureRateKPerHour is { } rate)
            {
                var spread = condition.TemperatureRateSigmaKPerHour is { } sigma ? $" ± {Number(units.FromKelvinDifference(Band * sigma), 1)}" : "";
                yield return (rate < 0 ? "Liquor cools by" : "Liquor warms by", $"{Number(units.FromKelvinDifference(Math.Abs(rate)), 1)}{spread} {units.TemperatureUnit}/h, over the last 10 min");
            }

            if (condition.OrpRateMillivoltsPerHour is { } drift)
            {
                var spread = condition.OrpRateSigmaMillivoltsPerHour is { } sigma ? $" ± {Number(Band * sigma, 1)}" : "";
                yield return ("ORP drifts by", $"{Number(drift, 1)}{spread} mV/h, outside dips and additions");
            }
        }

        private IEnumerable<(string, string)> Heat(HeatOutlook heat)
        {
            var (watts, wattsSigma) = heat.HeaterPower;
            yield return ("Heater", $"{Number(watts, 0)} ± {Number(Band * wattsSigma, 0)} W into the liquor; {(heat.HeaterOn switch { true => "on now", false => "off now", null => "not known whether it is on" })}");
            var (loss, lossSigma) = heat.Loss;
            var (turned, unit) = units.IsUs ? (1.8, "W/°F") : (1.0, "W/°C");
            yield return ("Heat lost", $"{Number(loss / turned, 2)} ± {Number(Band * lossSigma / turned, 2)} {unit} above the room, evaporation counted");
            yield return ("With the heater left on", heat.PlateauC switch
            {
                var plateau when plateau > heat.BoilingC => "it would boil: without a thermostat nothing holds it",
                var plateau => $"it would level off at about {units.Temperature(plateau)}",
            });
        }

        private (string, string) Margin(ReductionMargin margin)
        {
            var extrapolated = margin.Extrapolated ? " Outside what the sources vouch for." : "";
            return ("Margin of reduction", $"{Signed(margin.Millivolts)} ± {Number(margin.UncertaintyMillivolts, 0)} mV{At()}; by the ideal relation {Number(100 * margin.ReducedShare, 0)} % of the indigo is reduced. An index to follow, not an assay.{extrapolated}");
        }

        private static (string, string) GoodDays(BaselineDistance away)
        {
            var orp = Math.Abs(away.OrpSpreads) < 1 ? "as on its good days" : away.OrpMillivolts > 0 ? "weaker than on its good days" : "stronger than on its good days";
            return ("From its good days",
                $"ORP {Signed(away.OrpMillivolts)} mV ({Number(Math.Abs(away.OrpSpreads), 1)} times their spread, {orp}), pH {Signed(away.Ph, 2)} ({Number(Math.Abs(away.PhSpreads), 1)} times their spread); all at one pH and temperature");
        }

        private (string, string) Recovered(Recovery one)
        {
            var back = one.Time is { } time ? $"back after {DisplayUnits.Duration(time)}" : "not back";
            var shortfall = Math.Abs(one.ShortfallMillivolts) >= 1 ? $", {Number(Math.Abs(one.ShortfallMillivolts), 0)} mV {(one.ShortfallMillivolts > 0 ? "short of" : "beyond")} where it was" : "";
            return ($"Recovery, {clock.At(one.At.Utc)}", $"from {Signed(one.BeforeMillivolts)} mV up by {Number(one.RiseMillivolts, 0)} mV, {back}{shortfall}");
        }

        private string At() => (condition.Ph, condition.TemperatureC) switch
        {
            ({ } ph, { } celsius) => $", at pH {Number(ph, 2)} and {units.Temperature(celsius)}{(vat.Orp is { } orp ? $", against {orp.Reference}" : "")}",
            _ => "",
        };

        private static string Signed(double value, int decimals = 0) =>
            Math.Round(value, decimals) > 0 ? $"+{Number(value, decimals)}" : Number(value, decimals).Replace('-', '−');

        private static string Number(double value, int decimals)
        {
            var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
            return (rounded == 0 ? 0 : rounded).ToString("N" + decimals).Replace('-', '−');
        }
    }
}
