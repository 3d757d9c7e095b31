using VatWatch.Daemon.Web.Pages;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Vats.Figures;

/// <summary>One number of a vat as a page shows it.</summary>
/// <param name="Number">Digits, "on", "off", or an em dash.</param>
/// <param name="Unit">Unit after the digits; may be empty.</param>
/// <param name="Quality">"good", or what is wrong with it and why.</param>
/// <param name="Age">For example "4 s ago"; null when there was never one.</param>
/// <param name="IsOld">Whether it is too old to be believed.</param>
/// <param name="IsGood">Whether it may be used without a second thought.</param>
/// <param name="Trend">Arrow and words; null when not known.</param>
/// <param name="Time">When it was taken, UTC; null when never.</param>
/// <param name="Why">What exactly is wrong, to be folded away; null where the quality says it.</param>
public sealed record FigureView(
    string Label, string Number, string Unit, string Quality, string? Age, bool IsOld, bool IsGood, string? Trend, string Probe, DateTimeOffset? Time, string? Why = null)
{
    /// <summary>The dash of a number that is not there.</summary>
    public const string None = "—";

    public static FigureView Of(LiveVat live, ProbeDefinition probe, PageFacts page)
    {
        var label = Title(probe.Quantity);
        if (live.Latest.FirstOrDefault(one => one.Probe == probe.Id) is not { } measurement)
        {
            return new(label, None, "", "no reading yet", null, false, false, null, probe.Id.Value, null);
        }

        var age = page.Clock.Now.Since(measurement.Stamp);
        var isOld = page.Freshness.IsOld(measurement, probe, page.Clock.Now);
        var (number, unit) = Digits(measurement, page.Site.Units);
        return new(
            label,
            number,
            unit,
            QualityText(measurement, page.Site.Units),
            $"{DisplayUnits.Duration(age > TimeSpan.Zero ? age : TimeSpan.Zero)} ago",
            isOld,
            measurement.GoodValue is not null && !isOld,
            isOld ? null : TrendOf(live, probe.Quantity, page.Site.Units),
            probe.Id.Value,
            measurement.Stamp.Utc,
            IsDumb(measurement) ? WhyOf(measurement, page.Site.Units) : null);
    }

    /// <summary>What a kind of number is called.</summary>
    public static string Title(Quantity measures) => measures switch
    {
        Quantity.Temperature => "Liquor",
        Quantity.Ambient => "Room",
        Quantity.Ph => "pH",
        Quantity.Orp => "ORP",
        Quantity.Heater => "Heater",
        Quantity.HeaterCommand => "Heater's switch",
        _ => "Level",
    };

    private static (string Number, string Unit) Digits(Measurement measurement, DisplayUnits units)
    {
        if (measurement.Value is not { } value || !double.IsFinite(value))
        {
            return (None, "");
        }

        return measurement.Quantity switch
        {
            Quantity.Temperature or Quantity.Ambient => (units.FromCelsius(value).ToString("F1"), units.TemperatureUnit),
            Quantity.Ph => (value.ToString("F2"), ""),
            Quantity.Orp => (value.ToString("F0").Replace('-', '−'), "mV"),
            Quantity.Heater or Quantity.HeaterCommand => (units.Value(measurement.Quantity, value), ""),
            _ => (value.ToString("F0"), "%"),
        };
    }

    /// <summary>Whether nothing came from it at all.</summary>
    private static bool IsDumb(Measurement measurement) => measurement is { Value: null, Raw: null, Quality: VatWatch.Vats.Quality.Fault or VatWatch.Vats.Quality.Missing };

    private static string? WhyOf(Measurement measurement, DisplayUnits units) => measurement.Reason is { Length: > 0 } why ? units.Words(why) : null;

    private static string QualityText(Measurement measurement, DisplayUnits units)
    {
        var reason = WhyOf(measurement, units) is { } why ? $": {why}" : "";
        return measurement.Quality switch
        {
            _ when IsDumb(measurement) => "No reading. Is the probe plugged in?",
            VatWatch.Vats.Quality.Good => "good",
            VatWatch.Vats.Quality.Suspect => $"doubtful{reason}",
            VatWatch.Vats.Quality.Missing => $"no value{reason}",
            _ => $"probe fault{reason}",
        };
    }

    private static string? TrendOf(LiveVat live, Quantity measures, DisplayUnits units) => measures switch
    {
        Quantity.Temperature => TrendText.OfTemperature(live.Condition.TemperatureRateKPerHour, units),
        Quantity.Orp => TrendText.OfOrp(live.Condition.OrpRateMillivoltsPerHour),
        _ => null,
    };
}
