using VatWatch.Alarms;
using VatWatch.Vats;

namespace VatWatch.Tests.Alarms.Rules;

public sealed class ProbeFaultRuleTests
{
    private const string Fault = "probe-fault.redox";

    [Fact]
    public void Enters_after_ten_seconds_of_faults_and_gives_the_reason()
    {
        var vat = Faulty(12);
        var told = Assert.Single(vat.ChangesOf(Fault));
        Assert.Equal("Fault of probe redox (ORP) in Madder Lane vat: frozen at -700 mV.", told.Status.Text);
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
        Assert.Equal("Fault of probe redox (ORP) in Madder Lane vat, silent now: frozen at -700 mV.", vat.Status(Fault).Text);
    }

    [Fact]
    public void Returns_when_values_come_and_stay()
    {
        var vat = Faulty(12).Pass(62, it => it.Measure("redox", -700));
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.State(Fault));
    }

    private static WatchedVat Faulty(double seconds) =>
        new WatchedVat().Pass(seconds, it => it.Measure("redox", null, Quality.Fault, "frozen at -700 mV."));
}
