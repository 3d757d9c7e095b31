using System.Text.Json;
using VatWatch.Conditions;
using VatWatch.Conditions.Heating;

namespace VatWatch.Tests.Conditions.Heating.Heater;

/// <summary>A second warm-up, held against what the vat was known for after the first.</summary>
public sealed class HeaterOutputTests
{
    private readonly ScriptedVat _vat = new();

    [Fact]
    public void A_second_warm_up_like_the_first_is_well()
    {
        SecondEvening();
        Assert.DoesNotContain(_vat.Run(150).Diagnoses, IsOfOutput);
    }

    [Fact]
    public void A_lid_left_off_is_told_on_the_way_up()
    {
        SecondEvening();
        _vat.LossWPerK += 7;
        var said = Assert.Single(_vat.Run(150).Diagnoses, IsOfOutput);
        Assert.Equal(DiagnosisKind.LosingHeat, said.Kind);
        Assert.Contains("without its lid or wrap", said.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void One_night_whose_plume_hastened_the_probe_in_the_first_hour_makes_no_lid_of_the_next()
    {
        var plumeK = 0.0;
        _vat.ProbeShows = minutes => _vat.LiquorC + (plumeK = Math.Max(plumeK, 0.75 * Math.Clamp(minutes - 35, 0, 40) / 60));
        SecondEvening();
        _vat.ProbeShows = null;
        Assert.Equal(0, BeatsWith(150, IsOfOutput));
    }

    [Fact]
    public void A_layer_that_rose_to_the_probe_in_one_pause_of_the_thermostat_makes_no_lid_of_the_next()
    {
        _vat.HeaterOn = true;
        _vat.Run(165);
        Pause(layerK: 3);
        Pause(layerK: 3);
        _vat.Sleep(600);
        _vat.LiquorC = 26;
        _vat.Run(30);
        _vat.HeaterOn = true;
        _vat.Run(120);
        _vat.HeaterOn = false;
        Assert.Equal(0, BeatsWith(90, IsOfOutput));

        void Pause(double layerK)
        {
            _vat.HeaterOn = false;
            _vat.ProbeShows = minutes => _vat.LiquorC - layerK * Math.Min(1, minutes / 10) * Math.Exp(-minutes / 60);
            _vat.Run(90);
            _vat.HeaterOn = true;
            _vat.ProbeShows = null;
            _vat.Run(6);
        }
    }

    [Fact]
    public void A_layer_that_follows_late_and_slowly_is_no_heater_that_does_not_heat()
    {
        _vat.PowerW = 500;
        SecondEvening();
        _vat.ProbeShows = minutes => 26 + 1.6 * Math.Max(0, minutes - 18) / 60;
        Assert.Equal(0, BeatsWith(38, one => one.Kind == DiagnosisKind.HeaterNotHeating));
    }

    [Fact]
    public void The_short_turns_of_a_thermostat_do_not_unlearn_the_power_that_a_long_heating_has_shown()
    {
        var shownC = _vat.LiquorC;
        _vat.ProbeShows = _ => shownC += (_vat.LiquorC - shownC) / 36;
        _vat.HeaterOn = true;
        _vat.Run(180);
        for (var turn = 0; turn < 8; turn++)
        {
            _vat.HeaterOn = false;
            _vat.Run(60);
            _vat.HeaterOn = true;
            _vat.Run(14);
        }

        Assert.Equal(1480, _vat.Assessor.LearnedHeat!.PowerW, 90.0);
    }

    [Fact]
    public void Half_the_power_is_told_within_an_hour()
    {
        SecondEvening();
        _vat.PowerW /= 2;
        Assert.Equal(DiagnosisKind.WeakHeater, Assert.Single(_vat.Run(58).Diagnoses, IsOfOutput).Kind);
    }

    [Fact]
    public void Half_the_power_is_told_after_a_start_of_the_watch_too_by_what_was_kept_of_earlier_nights()
    {
        SecondEvening();
        var kept = JsonSerializer.Deserialize<LearnedHeat>(JsonSerializer.Serialize(_vat.Assessor.LearnedHeat))!;
        var next = new ScriptedVat { LiquorC = 26 };
        Assert.True(next.Assessor.Restore(kept));
        next.Run(30);
        next.HeaterOn = true;
        next.PowerW /= 2;
        Assert.Equal(DiagnosisKind.WeakHeater, Assert.Single(next.Run(58).Diagnoses, IsOfOutput).Kind);
    }

    [Fact]
    public void A_meter_tells_half_the_power_within_minutes()
    {
        SecondEvening();
        (_vat.PowerW, _vat.DrawnShare) = (_vat.PowerW / 2, 0.5);
        var said = Assert.Single(_vat.Run(8).Diagnoses, IsOfOutput);
        Assert.Equal(DiagnosisKind.WeakHeater, said.Kind);
        Assert.Contains("it used to draw", said.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_entered_warm_up_of_half_the_power_is_told_within_an_hour_without_a_heater_probe()
    {
        var vat = OfEntries();
        Evening(vat, 180);
        vat.HeaterOn = false;
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOff, vat.Stamp));
        vat.Sleep(600);
        vat.PowerW /= 2;
        Evening(vat, 58);
        Assert.Equal(DiagnosisKind.WeakHeater, Assert.Single(vat.Run(1).Diagnoses, IsOfOutput).Kind);
    }

    [Fact]
    public void What_was_said_stands_while_nothing_can_be_compared_and_ends_when_the_heater_is_switched_off()
    {
        SecondEvening();
        _vat.PowerW /= 2;
        _vat.Run(58);
        _vat.HeaterOn = false;
        Assert.Single(_vat.Run(10).Diagnoses, IsOfOutput);
        _vat.Assessor.Note(new VatAct(VatActKind.HeaterOff, _vat.Stamp));
        Assert.DoesNotContain(_vat.Run(2).Diagnoses, IsOfOutput);
    }

    [Fact]
    public void A_probe_in_air_whose_room_warms_by_turns_is_told_as_one_trouble()
    {
        SecondEvening();
        _vat.HeaterSays = true;
        _vat.HeaterOn = false;
        var missing = 0;
        _vat.ProbeShows = minutes => 26 + Math.Max(0, 0.8 * Math.Sin(minutes / 12));
        _vat.Run(120, minutes => missing += minutes > 40 && !_vat.Assessor.Assess(_vat.Stamp).Diagnoses.Any(one => one.Kind == DiagnosisKind.HeaterNotHeating) ? 1 : 0);
        Assert.Equal(0, missing);
    }

    [Fact]
    public void Without_a_heater_probe_a_slow_rise_in_the_band_may_be_a_thermostat_at_work()
    {
        var usual = new ScriptedVat().Vat;
        var vat = new ScriptedVat(usual with { Probes = [.. usual.Probes.Where(probe => probe.Quantity != Quantity.Heater)] }) { HeaterOn = true };
        vat.Run(160);
        vat.PowerW /= 2;
        Assert.DoesNotContain(vat.Run(50).Diagnoses, one => one.Kind == DiagnosisKind.WeakHeater);
    }

    [Theory]
    [InlineData(0, 3)]
    [InlineData(0.5, 9)]
    public void Without_a_heater_probe_a_weak_heater_stays_told_for_hours_after_the_thermostat_cut(double share, double hours)
    {
        var vat = OfEntries();
        Evening(vat, 180);
        vat.HeaterOn = false;
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOff, vat.Stamp));
        vat.Sleep(600);
        vat.PowerW *= share;
        Evening(vat, 65);
        vat.HeaterOn = false;
        vat.Run(60 * hours, _ => Assert.Contains(vat.Assessor.Assess(vat.Stamp).Diagnoses, one => one.Kind == DiagnosisKind.WeakHeater));
    }

    [Fact]
    public void A_vat_that_begins_warm_and_is_cut_off_soon_has_no_weak_heater()
    {
        var vat = OfEntries();
        for (var night = 0; night < 2; night++)
        {
            Evening(vat, 180);
            vat.HeaterOn = false;
            vat.Assessor.Note(new VatAct(VatActKind.HeaterOff, vat.Stamp));
            vat.Sleep(600);
        }

        vat.LiquorC = 39.5;
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, vat.Stamp));
        vat.HeaterOn = true;
        vat.Run(20);
        vat.HeaterOn = false;
        vat.Run(60, _ => Assert.DoesNotContain(vat.Assessor.Assess(vat.Stamp).Diagnoses, IsOfOutput));
    }

    private static ScriptedVat OfEntries()
    {
        var usual = new ScriptedVat().Vat;
        return new(usual with { Probes = [.. usual.Probes.Where(probe => probe.Quantity != Quantity.Heater)] });
    }

    private static void Evening(ScriptedVat vat, double minutes)
    {
        vat.LiquorC = 26;
        vat.Run(20);
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, vat.Stamp));
        vat.HeaterOn = true;
        vat.Run(minutes);
    }

    private static bool IsOfOutput(Diagnosis one) => one.Kind is DiagnosisKind.LosingHeat or DiagnosisKind.WeakHeater or DiagnosisKind.HeaterNotHeating;

    /// <summary>Lets minutes pass; how many beats of them say such a thing.</summary>
    private int BeatsWith(double minutes, Predicate<Diagnosis> such)
    {
        var beats = 0;
        _vat.Run(minutes, _ => beats += _vat.Assessor.Assess(_vat.Stamp).Diagnoses.Any(one => such(one)) ? 1 : 0);
        return beats;
    }

    /// <summary>Warm in the evening, off and not watched in the night, cold the next evening, and the heater comes on.</summary>
    private void SecondEvening()
    {
        _vat.HeaterOn = true;
        _vat.Run(180);
        _vat.HeaterOn = false;
        _vat.Run(20);
        _vat.Sleep(600);
        _vat.LiquorC = 26;
        _vat.Run(30);
        _vat.HeaterOn = true;
    }
}
