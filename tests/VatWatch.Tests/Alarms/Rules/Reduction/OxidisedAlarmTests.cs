using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Reduction;

public sealed class OxidisedAlarmTests
{
    private const string Oxidised = "oxidised";

    [Theory]
    [InlineData(-590, false)]
    [InlineData(-570, true)]
    public void Enters_above_the_mark_after_the_dwell(double millivolts, bool enters)
    {
        var vat = At(millivolts, VatState.Ready, 45).Pass(902);
        Assert.Equal(enters ? AlarmState.Unacknowledged : AlarmState.Normal, vat.State(Oxidised));
    }

    [Fact]
    public void Says_so_and_says_not_to_dip()
    {
        var status = At(-560, VatState.Oxidised, 45).Pass(902).Status(Oxidised);
        Assert.Equal("Madder Lane vat is oxidised: ORP −560 mV, limit −580 mV.", status.Text.In(DisplayUnits.Us));
        Assert.StartsWith("Do not dip.", status.Action, StringComparison.Ordinal);
    }

    [Fact]
    public void Is_suppressed_below_the_band_and_judged_once_warm()
    {
        var vat = At(-560, VatState.Warming, 30).Pass(1800);
        Assert.Equal(AlarmState.Suppressed, vat.State(Oxidised));
        vat.Condition = vat.Condition with { State = VatState.Oxidised, TemperatureC = 45 };
        vat.Pass(1);
        Assert.Equal(AlarmState.Unacknowledged, vat.State(Oxidised));
    }

    [Fact]
    public void One_stray_temperature_does_not_make_a_cold_vat_a_warm_one_but_a_thermometer_that_stays_away_ends_the_silence()
    {
        var vat = At(-560, VatState.Warming, 30).Pass(1800);
        vat.Condition = vat.Condition with { State = VatState.Unknown, TemperatureC = null };
        Assert.Equal(AlarmState.Suppressed, vat.Pass(14 * 60).State(Oxidised));
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(2 * 60).State(Oxidised));
    }

    [Fact]
    public void A_dip_that_has_come_back_below_the_mark_when_its_rest_ends_is_no_oxidation()
    {
        var vat = At(-560, VatState.Resting, 45).Pass(1000);
        vat.Condition = vat.Condition with { OrpMillivolts = -585 };
        vat.Pass(60);
        vat.Condition = vat.Condition with { State = VatState.Weak };
        Assert.Equal(AlarmState.Normal, vat.Pass(60).State(Oxidised));
    }

    private static WatchedVat At(double millivolts, VatState state, double temperatureC)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { OrpMillivolts = millivolts, State = state, TemperatureC = temperatureC };
        return vat;
    }
}
