using VatWatch.Conditions;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions;

/// <summary>Each diagnosis by its signature, and within the time that the heat-balance reference (section 10) allows.</summary>
public sealed class DiagnosesTests
{
    private readonly ScriptedVat _vat = new();

    [Fact]
    public void A_heater_that_is_on_but_does_not_heat_is_told_within_a_quarter_of_an_hour()
    {
        _vat.HeaterSays = true;
        _vat.Run(9);
        Assert.Empty(_vat.Run(0).Diagnoses);
        var said = Only(DiagnosisKind.HeaterNotHeating, _vat.Run(6));
        Assert.Contains("the probe or the element hangs out of the liquor", said.Sentence.ToString(), StringComparison.Ordinal);
        Assert.Equal(5, said.Since!.Value.Monotonic.TotalMinutes, 0.5);
    }

    [Fact]
    public void The_first_heating_says_once_that_no_thermostat_is_known()
    {
        _vat.HeaterOn = true;
        Only(DiagnosisKind.NoThermostatKnown, _vat.Run(20));
        Assert.Empty(_vat.Run(30).Diagnoses);
        _vat.HeaterOn = false;
        _vat.Run(20);
        _vat.HeaterOn = true;
        Assert.Empty(_vat.Run(20).Diagnoses);
    }

    [Fact]
    public void A_vat_that_boils_stays_stuck_and_is_said_to_boil()
    {
        _vat.LiquorC = 48;
        _vat.HeaterOn = true;
        _vat.PowerW = 3_000;
        _vat.Run(240, _ => _vat.LiquorC = Math.Min(_vat.LiquorC, 100));
        var said = Only(DiagnosisKind.HeaterStuckOn, _vat.Run(60, _ => _vat.LiquorC = Math.Min(_vat.LiquorC, 100)));
        Assert.Contains("boils", said.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_warm_vat_that_cools_out_of_its_band_is_told_unless_the_heater_was_entered_as_off()
    {
        var vat = Cooling();
        Only(DiagnosisKind.CoolsOutOfBand, Cooled(vat));

        var entered = Cooling();
        entered.Assessor.Note(new VatAct(VatActKind.HeaterOff, entered.Stamp));
        Assert.DoesNotContain(Cooled(entered).Diagnoses, one => one.Kind == DiagnosisKind.CoolsOutOfBand);

        // What is seen of a rise that went before the entry, minutes late, does not undo it.
        var risen = Cooling();
        risen.Run(30);
        risen.HeaterOn = true;
        risen.Run(5);
        risen.HeaterOn = false;
        risen.Assessor.Note(new VatAct(VatActKind.HeaterOff, risen.Stamp));
        Assert.DoesNotContain(Cooled(risen).Diagnoses, one => one.Kind == DiagnosisKind.CoolsOutOfBand);

        VatCondition Cooled(ScriptedVat cooling)
        {
            cooling.LossWPerK = 9;
            for (var minute = 0; minute < 600 && cooling.LiquorC > cooling.Vat.Temperature.LowC - 1; minute++)
            {
                cooling.Run(1);
            }

            return cooling.Run(10);
        }

        ScriptedVat Cooling() => new(Unprobed()) { LiquorC = _vat.Vat.Temperature.LowC + 2 };
    }

    private VatDefinition Unprobed() => _vat.Vat with { Probes = [.. _vat.Vat.Probes.Where(probe => probe.Quantity != Quantity.Heater)] };

    [Fact]
    public void A_probe_that_was_out_of_the_liquor_by_day_does_not_show_in_the_evening_that_the_vat_cools_out_of_its_band()
    {
        var vat = new ScriptedVat(Unprobed()) { LiquorC = _vat.Vat.Temperature.LowC + 2, LossWPerK = 9 };
        vat.Run(30);
        vat.ProbeShows = minutes => vat.RoomC + 22 * Math.Exp(-minutes / 4);
        Only(DiagnosisKind.ProbeOutOfLiquor, vat.Run(20));
        vat.ProbeShows = _ => vat.RoomC + 1;
        vat.Run(5 * 60);
        vat.ProbeShows = null;
        Assert.Empty(vat.Run(15).Diagnoses);
        vat.HeaterOn = true;
        Assert.Empty(vat.Run(40).Diagnoses);
    }

    [Fact]
    public void A_noisy_thermometer_that_trembles_about_the_edge_does_not_put_that_off()
    {
        var low = _vat.Vat.Temperature.LowC;
        var vat = new ScriptedVat(Unprobed()) { LiquorC = low + 1, Scatter = 0.25 };
        while (vat.LiquorC > low)
        {
            vat.Run(1);
        }

        Only(DiagnosisKind.CoolsOutOfBand, vat.Run(25));
    }

    [Fact]
    public void With_the_level_low_the_element_may_be_dry()
    {
        _vat.HeaterSays = true;
        _vat.LevelPercent = 40;
        Assert.Contains("Unplug it at the wall now", Only(DiagnosisKind.ElementUncovered, _vat.Run(10)).Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_heater_that_gives_three_quarters_of_what_it_gave_is_weak()
    {
        _vat.HeaterOn = true;
        Assert.Empty(_vat.Run(75).Diagnoses);
        _vat.PowerW *= 0.75;
        var said = Only(DiagnosisKind.WeakHeater, _vat.Run(60));
        Assert.Contains("the heater gives less than it did, by about", said.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_heater_said_to_be_off_that_heats_is_stuck()
    {
        _vat.HeaterOn = true;
        _vat.Run(60);
        _vat.HeaterSays = false;
        Only(DiagnosisKind.HeaterStuckOn, _vat.Run(25));
        Assert.NotNull(_vat.Run(0).TimeToLimit);
    }

    [Theory]
    [InlineData(0.01)]
    [InlineData(0.5)]
    public void Without_a_thermostat_a_heater_sticks_half_a_kelvin_and_one_step_of_the_thermometer_above_the_band(double stepK)
    {
        (_vat.HeaterOn, _vat.LiquorC, _vat.Scatter) = (true, _vat.Vat.Temperature.HighC - 6, 0);
        double Shown() => Math.Round(_vat.LiquorC / stepK) * stepK;
        _vat.ProbeShows = _ => Shown();
        while (_vat.Run(1).Diagnoses.All(one => one.Kind != DiagnosisKind.HeaterStuckOn))
        {
            Assert.InRange(_vat.LiquorC, 0, _vat.Vat.Temperature.HighC + 3);
        }

        Assert.InRange(Shown() - _vat.Vat.Temperature.HighC, 0.501 + stepK, 0.9 + 2 * stepK);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void A_heater_that_was_told_to_be_off_sticks_only_where_the_liquor_goes_on_rising(bool sticks)
    {
        var usual = SampleVats.MadderLane();
        var vat = new ScriptedVat(usual with { Probes = [.. usual.Probes, SampleVats.Probe("madder-lane", "command", Quantity.HeaterCommand, 10)] })
        {
            LiquorC = 36,
            LossWPerK = 8,
            Scatter = 0.12,
        };
        (vat.HeaterOn, vat.CommandedOn) = (true, true);
        vat.Run(50);
        (vat.HeaterOn, vat.CommandedOn) = (sticks, false);
        var said = new HashSet<DiagnosisKind>();
        for (var minute = 0; minute < 12; minute++)
        {
            said.UnionWith(vat.Run(1).Diagnoses.Select(one => one.Kind));
        }

        Assert.Equal(sticks, said.Contains(DiagnosisKind.HeaterStuckOn));
    }

    /// <summary>The power goes with the command; the liquor at the probe goes on rising for a while, and in short pauses until the next command.</summary>
    [Theory]
    [InlineData(18, 60)]
    [InlineData(18, 15)]
    public void A_vat_whose_liquor_rises_late_after_every_command_is_told_twice_at_most(double lagMinutes, double pauseMinutes)
    {
        var usual = SampleVats.MadderLane();
        var vat = new ScriptedVat(usual with { Probes = [.. usual.Probes, SampleVats.Probe("madder-lane", "command", Quantity.HeaterCommand, 10)] }) { LiquorC = 36, LossWPerK = 8 };
        var told = 0;
        for (var cycle = 0; cycle < 8; cycle++)
        {
            vat.LiquorC = 38;
            (vat.HeaterOn, vat.CommandedOn) = (true, true);
            vat.Run(40);
            vat.CommandedOn = false;
            var said = false;
            for (var minute = 0; minute < pauseMinutes; minute++)
            {
                vat.HeaterOn = minute < lagMinutes;
                said |= vat.Run(1).Diagnoses.Any(one => one.Kind == DiagnosisKind.HeaterStuckOn);
            }

            told += said ? 1 : 0;
        }

        Assert.InRange(told, 1, 2);
    }

    [Fact]
    public void A_thermostat_that_once_switched_off_and_does_not_now_is_stuck()
    {
        _vat.LiquorC = 42.4;
        _vat.LossWPerK = 12;
        for (var cycle = 0; cycle < 2; cycle++)
        {
            _vat.HeaterOn = true;
            Until(() => _vat.LiquorC >= 43.5);
            _vat.HeaterOn = false;
            Until(() => _vat.LiquorC <= 42.5);
        }

        _vat.HeaterOn = true;
        Until(() => _vat.LiquorC >= 43);
        Assert.Contains("the thermostat has switched off at 43.", _vat.Run(0).NoTimeToLimit, StringComparison.Ordinal);
        Assert.Empty(_vat.Run(0).Diagnoses);
        Until(() => _vat.LiquorC >= 44.7);
        Assert.Contains("used to switch off at 43.", Only(DiagnosisKind.HeaterStuckOn, _vat.Run(3)).Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_lid_taken_off_is_told_within_an_hour_and_not_when_a_person_told_of_it()
    {
        _vat.LiquorC = 46;
        Assert.Empty(_vat.Run(120).Diagnoses);
        _vat.LossWPerK += 8;
        Only(DiagnosisKind.LosingHeat, _vat.Run(50));

        var told = new ScriptedVat { LiquorC = 46 };
        told.Run(120);
        told.Assessor.Note(new VatAct(VatActKind.LidOff, told.Stamp));
        told.LossWPerK += 8;
        Assert.Empty(told.Run(50).Diagnoses);
    }

    [Fact]
    public void A_heater_that_stuck_before_the_probe_fell_out_is_told_first()
    {
        var vat = new ScriptedVat(Unprobed()) { LiquorC = _vat.Vat.Temperature.HighC - 1, HeaterOn = true };
        vat.Run(25);
        Assert.Equal(DiagnosisKind.HeaterStuckOn, vat.Run(0).Diagnoses[0].Kind);
        vat.ProbeShows = minutes => 18 + 30 * Math.Exp(-minutes / 4);
        Assert.Equal([DiagnosisKind.HeaterStuckOn, DiagnosisKind.ProbeOutOfLiquor], vat.Run(10).Diagnoses.Select(one => one.Kind));
    }

    [Fact]
    public void A_heater_far_stronger_than_usual_for_such_a_vat_is_forecast_too()
    {
        var vat = new ScriptedVat(Unprobed() with { HeaterWatts = null }) { PowerW = 10_000 };
        vat.Run(20);
        vat.HeaterOn = true;
        vat.Run(15);
        Assert.InRange(vat.Run(0).TimeToLimit!.Middle.TotalMinutes, 12, 22);
    }

    /// <summary>Pulses of a controller make its power seem small: after it, a lid that is put on lets the vat cool more slowly than half-way between heated and not.</summary>
    [Fact]
    public void A_vat_that_cools_slowly_after_a_command_is_not_heated()
    {
        var usual = Unprobed();
        var vat = new ScriptedVat(usual with { HeaterWatts = null, Probes = [.. usual.Probes, SampleVats.Probe("madder-lane", "command", Quantity.HeaterCommand, 10)] })
        {
            LiquorC = 44,
            LossWPerK = 12,
            PowerW = 312,
        };
        (vat.HeaterOn, vat.CommandedOn) = (true, true);
        vat.Run(300);
        (vat.HeaterOn, vat.CommandedOn, vat.LossWPerK) = (false, false, 3);
        for (var minute = 0; minute < 120; minute++)
        {
            Assert.DoesNotContain(vat.Run(1).Diagnoses, one => one.Kind == DiagnosisKind.HeaterStuckOn);
        }
    }

    [Fact]
    public void A_probe_pulled_out_is_told_and_its_value_not_relied_on()
    {
        _vat.LiquorC = 44;
        _vat.HeaterOn = true;
        _vat.Run(20);
        _vat.ProbeShows = minutes => 18 + 27 * Math.Exp(-minutes / 5);
        var condition = _vat.Run(6);
        Only(DiagnosisKind.ProbeOutOfLiquor, condition);
        Assert.Equal(VatState.Unknown, condition.State);
        Assert.Null(condition.TimeToLimit);
        Assert.Contains("hang in air", condition.NoTimeToLimit, StringComparison.Ordinal);
        _vat.ProbeShows = null;
        Assert.NotEqual(VatState.Unknown, _vat.Run(12).State);
    }

    [Fact]
    public void A_frozen_thermometer_makes_the_vat_unknown()
    {
        _vat.LiquorC = 40;
        _vat.HeaterOn = true;
        _vat.Run(30);
        _vat.Scatter = 0;
        _vat.ProbeShows = _ => 43.21;
        var condition = _vat.Run(17);
        Assert.Contains(condition.Diagnoses, said => said.Kind == DiagnosisKind.FrozenValue && said.Probe?.Value == "liquor");
        Assert.Equal(VatState.Unknown, condition.State);
        Assert.Contains("repeats one value", condition.Reasons[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Cold_yarn_is_told_with_its_size_and_rests_the_vat()
    {
        _vat.LiquorC = 44;
        _vat.Run(30);
        _vat.LiquorC -= 0.9;
        var said = Only(DiagnosisKind.ColdLoad, _vat.Run(4));

        // 0.9 K of 650 kJ/K at 25 K above the room is 5.6 L of water at room temperature.
        Assert.Contains("as much as 5 L", said.Sentence.ToString().Replace("6 L", "5 L", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(35, said.Since!.Value.Monotonic.TotalMinutes, 1.5);
        Assert.Empty(_vat.Run(45).Diagnoses);
    }

    [Fact]
    public void Every_kind_has_its_word() =>
        Assert.Equal(Enum.GetValues<DiagnosisKind>().Length, Enum.GetValues<DiagnosisKind>().Select(kind => kind.Word()).Distinct().Count());

    private void Until(Func<bool> reached)
    {
        for (var minutes = 0; !reached(); minutes++)
        {
            Assert.True(minutes < 600);
            _vat.Run(1);
        }
    }

    private static Diagnosis Only(DiagnosisKind kind, VatCondition condition)
    {
        var said = Assert.Single(condition.Diagnoses);
        Assert.Equal(kind, said.Kind);
        return said;
    }
}
