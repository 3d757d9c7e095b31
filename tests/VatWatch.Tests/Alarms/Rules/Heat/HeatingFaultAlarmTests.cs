using VatWatch.Alarms;
using VatWatch.Conditions;

namespace VatWatch.Tests.Alarms.Rules.Heat;

public sealed class HeatingFaultAlarmTests
{
    private const string Fault = "heating-fault";

    [Theory]
    [InlineData(DiagnosisKind.WeakHeater, AlarmPriority.Medium)]
    [InlineData(DiagnosisKind.LosingHeat, AlarmPriority.Medium)]
    [InlineData(DiagnosisKind.HeaterNotHeating, AlarmPriority.High)]
    [InlineData(DiagnosisKind.HeaterStuckOn, AlarmPriority.High)]
    [InlineData(DiagnosisKind.ProbeOutOfLiquor, AlarmPriority.High)]
    [InlineData(DiagnosisKind.LeakageCurrent, AlarmPriority.High)]
    public void Carries_the_diagnosis_with_the_priority_of_its_danger(DiagnosisKind kind, AlarmPriority priority)
    {
        var status = Diagnosed(kind).Pass(62).Status(Fault);
        Assert.Equal((AlarmState.Unacknowledged, priority), (status.State, status.Priority));
        Assert.Equal("Heating of Madder Lane vat: the liquor rises 0.2 °F/h where 6 °F/h was learned.", status.Text.In(DisplayUnits.Us));
        Assert.NotEmpty(status.Action);
    }

    [Fact]
    public void Layers_in_the_vat_are_no_fault_of_the_heating() =>
        Assert.Equal(AlarmState.Normal, Diagnosed(DiagnosisKind.Stratified).Pass(600).State(Fault));

    [Fact]
    public void A_worse_diagnosis_wakes_an_acknowledged_alarm()
    {
        var vat = Diagnosed(DiagnosisKind.WeakHeater).Pass(62);
        vat.Acknowledge(Fault);
        vat.Condition = Diagnosed(DiagnosisKind.HeaterStuckOn).Condition;
        vat.Pass(1);
        Assert.Equal((AlarmState.Unacknowledged, "Unplug the heater at the wall: a relay that has welded shut obeys no switch, and solid-state ones fail closed. Keep clear of the liquor."), (vat.State(Fault), vat.Status(Fault).Action));
    }

    [Fact]
    public void What_is_dangerous_is_told_before_what_only_costs_time()
    {
        var vat = Diagnosed(DiagnosisKind.CoolsOutOfBand).Pass(62);
        vat.Acknowledge(Fault);
        vat.Condition = vat.Condition with { Diagnoses = [.. vat.Condition.Diagnoses, new(DiagnosisKind.ProbeOutOfLiquor, "the probe seems to hang in air.")] };
        vat.Pass(1);
        Assert.Equal((AlarmState.Unacknowledged, AlarmPriority.High), (vat.State(Fault), vat.Status(Fault).Priority));
        Assert.EndsWith("the probe seems to hang in air.", vat.Status(Fault).Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_vat_that_is_warmed_up_while_its_probe_hangs_in_air_is_critical()
    {
        var vat = Diagnosed(DiagnosisKind.ProbeOutOfLiquor).Pass(62);
        vat.Acknowledge(Fault);
        vat.Condition = vat.Condition with
        {
            TemperatureC = null,
            WarmUp = new() { Since = WatchedVat.At(TimeSpan.FromSeconds(62)), WasEntered = true, ExpectedRiseK = new(0, 0) },
        };
        vat.Pass(1);
        Assert.Equal((AlarmState.Unacknowledged, AlarmPriority.Critical), (vat.State(Fault), vat.Status(Fault).Priority));
        Assert.EndsWith("nothing shows how hot it is.", vat.Status(Fault).Text.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Returns_when_the_balance_adds_up_again_but_not_when_the_temperature_is_lost()
    {
        var vat = Diagnosed(DiagnosisKind.WeakHeater).Pass(62);
        vat.Condition = vat.Condition with { Diagnoses = [], TemperatureC = null };
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(3600).State(Fault));
        vat.Condition = vat.Condition with { TemperatureC = 44 };
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.Pass(302).State(Fault));
    }

    [Theory]
    // A plateau at the boil, at the limit, within its deadband and below it, after the diagnosis has gone.
    [InlineData(100, AlarmState.Unacknowledged)]
    [InlineData(48.9, AlarmState.Unacknowledged)]
    [InlineData(48.6, AlarmState.Unacknowledged)]
    [InlineData(48.3, AlarmState.ReturnedUnacknowledged)]
    public void Hot_liquor_that_levels_off_is_no_heating_without_a_fault(double plateauC, AlarmState state)
    {
        var vat = Diagnosed(DiagnosisKind.HeaterStuckOn).Pass(62);
        vat.Condition = vat.Condition with { Diagnoses = [], TemperatureC = plateauC, TemperatureRateKPerHour = 0 };
        Assert.Equal(state, vat.Pass(3600).State(Fault));
        Assert.Equal(state == AlarmState.ReturnedUnacknowledged, vat.Status(Fault).Text.ToString().Contains("shows no fault", StringComparison.Ordinal));
    }

    private static WatchedVat Diagnosed(DiagnosisKind kind)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { Diagnoses = [new(kind, "the liquor rises 0.2 °F/h where 6 °F/h was learned.")] };
        return vat;
    }
}
