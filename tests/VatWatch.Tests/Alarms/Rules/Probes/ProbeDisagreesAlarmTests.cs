using VatWatch.Alarms;

namespace VatWatch.Tests.Alarms.Rules.Probes;

public sealed class ProbeDisagreesAlarmTests
{
    private const string Disagrees = "probe-disagrees.temperature";

    [Fact]
    public void Enters_when_two_probes_of_a_kind_differ_for_the_dwell()
    {
        var vat = Pair().Pass(598, it => Read(it, 45, 43.5));
        Assert.Equal(AlarmState.Normal, vat.State(Disagrees));
        vat.Pass(5, it => Read(it, 45, 43.5));
        var status = vat.Status(Disagrees);
        Assert.Equal((AlarmState.Unacknowledged, AlarmPriority.High), (status.State, status.Priority));
        Assert.Equal("The temperature probes in Madder Lane vat disagree: top shows 113.0 °F and bottom shows 110.3 °F.", status.Text.In(DisplayUnits.Us));
        Assert.Equal((2.7, 1.8, "°F"), (status.In(DisplayUnits.Us).Value!.Value, status.In(DisplayUnits.Us).Limit!.Value, status.In(DisplayUnits.Us).Unit));
        Assert.StartsWith("Trust the hotter one.", status.Action, StringComparison.Ordinal);
    }

    [Fact]
    public void Returns_when_they_agree_and_not_when_one_falls_silent()
    {
        var vat = Pair().Pass(605, it => Read(it, 45, 43.5));
        vat.Pass(3600, it => it.Measure("top", 45));
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Disagrees));
        vat.Pass(305, it => Read(it, 45, 44.8));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Disagrees));
    }

    [Fact]
    public void One_probe_of_a_kind_has_no_such_alarm() =>
        Assert.DoesNotContain(new WatchedVat().Board.All, status => status.Alarm.Kind == "probe-disagrees");

    private static WatchedVat Pair() => new(vat: WatchedVat.MadderLane(
        WatchedVat.Probe("top", Quantity.Temperature), WatchedVat.Probe("bottom", Quantity.Temperature)));

    private static void Read(WatchedVat vat, double top, double bottom)
    {
        vat.Measure("top", top);
        vat.Measure("bottom", bottom);
    }
}
