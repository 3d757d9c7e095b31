using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Health;

/// <summary>The vats as numbers: newest values, their ages, the state, alarms that stand. A value that is missing has no sample.</summary>
internal sealed class VatMetrics(ILiveFeed feed) : IMetricSource
{
    private static readonly (Quantity Quantity, string Name, string Unit, string Help)[] Kinds =
    [
        (Quantity.Temperature, "vatwatch_liquor_temperature_celsius", "celsius", "Liquor temperature."),
        (Quantity.Ambient, "vatwatch_ambient_temperature_celsius", "celsius", "Room temperature."),
        (Quantity.Ph, "vatwatch_liquor_ph", "", "pH of the liquor at its own temperature."),
        (Quantity.Orp, "vatwatch_liquor_orp_volts", "volts", "Oxidation-reduction potential against the vat's reference electrode."),
        (Quantity.Heater, "vatwatch_heater_on", "", "Share of its rated power that the heater draws; 1 or 0 where only on and off are known."),
        (Quantity.HeaterCommand, "vatwatch_heater_commanded_on", "", "1 while the heater's switch is told to be on."),
        (Quantity.Level, "vatwatch_liquor_level_ratio", "ratio", "Liquor level, 1 is full."),
    ];

    private const string StateSet = "vatwatch_vat_state";

    public IEnumerable<MetricFamily> Collect()
    {
        var now = feed.Clock.Now();
        var vats = feed.Vats;
        foreach (var kind in Kinds)
        {
            yield return new(kind.Name, MetricType.Gauge, kind.Unit, kind.Help,
                [.. vats.SelectMany(live => live.Latest).Where(one => one.Quantity == kind.Quantity && one.GoodValue is not null)
                    .Select(one => new MetricSample(InBaseUnit(one), Labels(one)))]);
        }

        yield return new("vatwatch_measurement_age_seconds", MetricType.Gauge, "seconds", "Age of the newest measurement of a probe.",
            [.. vats.SelectMany(live => live.Latest).Select(one => new MetricSample(Math.Max(0, now.Since(one.Stamp).TotalSeconds), Labels(one)))]);
        yield return new("vatwatch_measurement_good", MetricType.Gauge, "", "1 when the newest measurement of a probe is good.",
            [.. vats.SelectMany(live => live.Latest).Select(one => new MetricSample(one.GoodValue is null ? 0 : 1, Labels(one)))]);
        yield return new(StateSet, MetricType.StateSet, "", "1 for the state a vat is in, 0 for the others.", [.. vats.SelectMany(States)]);
        yield return new("vatwatch_alarms_active", MetricType.Gauge, "", "Alarms in front of the dyer.",
            [.. vats.Select(live => new MetricSample(live.Alarms.Count(alarm => alarm.IsActive), ("vat", live.Definition.Id.Value))),
                new(feed.DaemonAlarms.Count(alarm => alarm.IsActive), ("vat", VatId.Daemon.Value))]);
        yield return MetricFamily.Gauge("vatwatch_clock_trusted", "", "1 while the wall clock is known to be right.", now.UtcTrusted ? 1 : 0);
    }

    private static IEnumerable<MetricSample> States(LiveVat live) => Enum.GetValues<VatState>()
        .Select(state => new MetricSample(live.Condition.State == state ? 1 : 0, ("vat", live.Definition.Id.Value), (StateSet, state.Word())));

    private static double InBaseUnit(Measurement one) => one.Quantity switch
    {
        Quantity.Orp => one.Value!.Value / 1000,
        Quantity.Level => one.Value!.Value / 100,
        _ => one.Value!.Value,
    };

    private static (string Name, string Value)[] Labels(Measurement one) => [("vat", one.Vat.Value), ("probe", one.Probe.Value)];
}
