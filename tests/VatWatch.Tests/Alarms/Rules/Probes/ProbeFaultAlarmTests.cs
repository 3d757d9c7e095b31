using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Probes;

public sealed class ProbeFaultAlarmTests
{
    private const string Fault = "probe-fault.redox";

    [Fact]
    public void A_fault_that_comes_from_a_lost_bus_is_the_buss_to_tell()
    {
        var vat = new WatchedVat();
        vat.LostBuses.Add(new("bench"));
        vat.Pass(600, it => it.Measure("redox", null, Quality.Fault, "the bus is lost"));
        vat.LostBuses.Clear();
        // Until the first answer after the bus's return nothing is known; then the probe speaks for itself.
        Assert.Empty(vat.Pass(14).ChangesOf(Fault));
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(12, it => it.Measure("redox", null, Quality.Fault, "open circuit")).State(Fault));
    }

    [Fact]
    public void Enters_after_ten_seconds_of_faults_and_gives_the_reason()
    {
        var vat = Faulty(12);
        var told = Assert.Single(vat.ChangesOf(Fault));
        Assert.Equal("Fault of probe redox (ORP) in Madder Lane vat: frozen at -700 mV.", told.Status.Text.In(DisplayUnits.Us));
        Assert.Equal(AlarmPriority.High, told.Status.Priority);
    }

    [Fact]
    public void One_bad_frame_is_no_alarm()
    {
        var vat = new WatchedVat();
        vat.Pass(600, it => it.Measure("redox", -700, it.Now.TotalSeconds % 10 == 0 ? Quality.Fault : Quality.Good, "bad frame"));
        Assert.Empty(vat.ChangesOf(Fault));
    }

    [Fact]
    public void Silence_does_not_clear_it()
    {
        var vat = Faulty(12).Pass(3600);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Fault));
        Assert.Equal("Fault of probe redox (ORP) in Madder Lane vat, silent now: frozen at -700 mV.", vat.Status(Fault).Text.In(DisplayUnits.Us));
    }

    [Fact]
    public void Returns_when_values_come_and_stay()
    {
        var vat = Faulty(12).Pass(62, it => it.Measure("redox", -700));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Fault));
    }

    [Fact]
    public void A_value_that_stands_still_in_a_vat_at_rest_is_no_fault_for_four_hours_then_it_is_told()
    {
        var vat = Stuck(new WatchedVat(), hours: 3.9);
        Assert.Empty(vat.ChangesOf(Fault));
        Stuck(vat, hours: 0.2);
        var told = Assert.Single(vat.ChangesOf(Fault));
        Assert.Equal("The probe redox (ORP) in Madder Lane vat has shown exactly −712 mV for 4 h, though it used to move. Do not rely on it.", told.Status.Text.In(DisplayUnits.Us));
        Assert.StartsWith("Unplug the heater, take that probe out, rinse it", told.Status.Action, StringComparison.Ordinal);
        Assert.Equal(AlarmPriority.High, told.Status.Priority);
    }

    [Fact]
    public void A_value_that_stands_still_while_the_liquor_warms_by_two_kelvin_is_told_at_once()
    {
        var vat = Stuck(new WatchedVat(), hours: 0.5, kelvinPerHour: 5);
        Assert.Contains("−712 mV for 24 min", Assert.Single(vat.ChangesOf(Fault)).Status.Text.In(DisplayUnits.Us), StringComparison.Ordinal);
    }

    [Fact]
    public void It_returns_when_the_value_moves_again()
    {
        var vat = Stuck(new WatchedVat(), hours: 4.1);
        vat.Condition = vat.Ready();
        vat.Pass(62, it => it.Measure("redox", -711 - (it.Now.TotalSeconds % 3)));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Fault));
    }

    [Fact]
    public void A_temperature_that_stands_still_is_left_to_the_alarm_of_the_heating()
    {
        var vat = Stuck(new WatchedVat(), hours: 5, probe: "liquor");
        Assert.Empty(vat.ChangesOf("probe-fault.liquor"));
        Assert.Equal(AlarmState.Unacknowledged, vat.State("heating-fault"));
    }

    /// <summary>Hours in which the condition says that a probe repeats itself, measured and looked at every ten seconds.</summary>
    private static WatchedVat Stuck(WatchedVat vat, double hours, double kelvinPerHour = 0, string probe = "redox")
    {
        var since = WatchedVat.At(TimeSpan.Zero);
        return vat.Pass(hours * 3600, it =>
        {
            if (it.Now.TotalSeconds % 10 != 0)
            {
                return;
            }

            it.Measure("redox", -712, Quality.Suspect, "has been the same");
            it.Measure("alkali", 10);
            it.Measure("liquor", 44);
            it.Condition = it.Ready() with
            {
                TemperatureC = 38 + (kelvinPerHour * it.Now.TotalHours),
                Diagnoses = [new(DiagnosisKind.FrozenValue, $"Probe {probe} repeats itself.") { Probe = new(probe), Since = since }],
            };
        });
    }

    private static WatchedVat Faulty(double seconds) =>
        new WatchedVat().Pass(seconds, it => it.Measure("redox", null, Quality.Fault, "frozen at -700 mV."));
}
