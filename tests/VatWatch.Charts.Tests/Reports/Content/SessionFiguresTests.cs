using VatWatch.Alarms;
using VatWatch.Charts.Reports.Content;
using VatWatch.Measurements;

namespace VatWatch.Charts.Tests.Reports.Content;

/// <summary>Figures of a small log, worked out by hand, as a reader of the report sees them.</summary>
public class SessionFiguresTests
{
    private static Dictionary<string, string> Figures(VatRecord record) => new SessionFigures(record, TimeZoneInfo.Utc).Figures
        .ToDictionary(row => row.Label.Replace('\u00a0', ' '), row => row.Value.Replace('\u00a0', ' '));

    private static IEnumerable<Measurement> Every(int minutes, string probe, Quantity measures, params double[] values) =>
        values.Select((value, i) => NightOfWarming.Good(probe, measures, TimeSpan.FromMinutes(i * minutes), value));

    // Band 37.78 to 47.78 °C, limit 48.89 °C. From 42.78 up 1 K/min for 10 min and down again.
    private static readonly VatRecord Peak = Logs.Record(
        TimeSpan.FromMinutes(30), Every(10, "liquor", Quantity.Temperature, 42.78, 52.78, 42.78, 42.78));

    [Fact]
    public void Temperature_is_told_with_time_in_band_peak_and_degree_minutes()
    {
        var figures = Figures(Peak);
        Assert.Equal("42.8 °C → 42.8 °C", figures["Temperature of the liquor, start and end"]);
        Assert.Equal("52.8 °C at 01:10", figures["Highest"]);
        // 5 min up to the band's edge, 5 min down from it, 10 min flat: 20 of 30 min.
        Assert.Equal("20 min, 67 % of 30 min known", figures["In the band, 37.8 °C to 47.8 °C"]);
        // 52.78 − 48.89 = 3.89 K: two triangles of 3.89 min and 3.89 K, 7.78 min and 15.13 K·min together.
        Assert.Equal("7 min", figures["At or above the limit, 48.9 °C"]);
        Assert.Equal("15 °C·min", figures["Degree-minutes above the limit"]);
    }

    [Fact]
    public void In_us_units_degree_minutes_are_of_fahrenheit_degrees() => // 15.13 × 1.8 = 27.2
        Assert.Equal("27 °F·min", Figures(Peak with { Units = DisplayUnits.Us })["Degree-minutes above the limit"]);

    [Fact]
    public void Ph_and_orp_are_told_with_drift_and_thresholds()
    {
        var figures = Figures(Logs.Record(
            TimeSpan.FromHours(3),
            [
                .. Every(60, "ph-glass", Quantity.Ph, 10.3, 10.1, 9.9, 9.7),
                .. Every(60, "orp-platinum", Quantity.Orp, -700, -660, -620, -580),
            ]));
        Assert.Equal("10.30 → 9.70", figures["pH, start and end"]);
        Assert.Equal("−0.200 per hour", figures["pH drift"]);
        Assert.Equal("−700, −640, −580 mV", figures["ORP: lowest, median, highest"]);
        Assert.Equal("2 h", figures["Weak, above −660 mV"]);
        Assert.Equal("never", figures["Oxidised, above −580 mV"]);
    }

    [Fact]
    public void A_second_thermometer_is_told_by_name() => Assert.Contains(
        "Temperature of the liquor (deep), start and end",
        new SessionFigures(Logs.Record(
            TimeSpan.FromMinutes(5),
            [.. Every(1, "liquor", Quantity.Temperature, 40, 41, 42, 43, 44, 45), .. Every(1, "deep", Quantity.Temperature, 39, 40, 41, 42, 43, 44)]),
            TimeZoneInfo.Utc).Figures.Select(row => row.Label));

    [Fact]
    public void A_probe_that_never_gave_a_good_value_says_so() => Assert.Equal(
        "no good reading", Figures(Logs.Record(TimeSpan.FromMinutes(1), [Logs.Reading(0, null)]))["Temperature of the liquor"]);

    [Fact]
    public void An_alarm_is_told_with_the_time_it_waited()
    {
        TimeSpan At(int minute) => TimeSpan.FromMinutes(minute);
        var record = Peak with
        {
            AlarmChanges =
            [
                NightOfWarming.Change("overheat", AlarmState.Normal, AlarmState.Unacknowledged, At(7), At(7), priority: AlarmPriority.Critical),
                NightOfWarming.Change("overheat", AlarmState.Unacknowledged, AlarmState.Acknowledged, At(9), At(7), "Ada", AlarmPriority.Critical),
            ],
        };
        var row = Assert.Single(new SessionFigures(record, NightOfWarming.NewYork).Alarms);
        Assert.Equal(("critical", "20:07", "20:09 by Ada, after 2\u00a0min", "still on"), (row.Priority, row.Entered, row.Acknowledged, row.Ended));
    }

    [Fact]
    public void When_all_probes_fell_silent_together_it_is_told_once()
    {
        var figures = new SessionFigures(new NightOfWarming(every: TimeSpan.FromMinutes(1)).Record(), TimeZoneInfo.Utc);
        Assert.Equal([("all probes", "no record"), ("ph-glass", "fault")], figures.Gaps.Select(gap => (gap.Probe, gap.What)));
        Assert.Equal("reply '==, \"E4\"' is not a number like '6.873'", figures.Gaps[1].Reason);
    }

    [Fact]
    public void Single_lost_readings_are_counted_not_listed()
    {
        var figures = new SessionFigures(Logs.Liquor([(0, 40), (1, null), (2, 40), (3, 40), (4, null), (5, 40), (6, 40)]), TimeZoneInfo.Utc);
        Assert.Empty(figures.Gaps);
        Assert.Equal(2, figures.ShortGaps);
    }
}
