using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Heating;

public sealed class WarmUpTests
{
    private readonly ScriptedVat _vat = new();

    [Fact]
    public void A_warm_up_runs_within_its_corridor_until_the_liquor_is_in_its_band()
    {
        _vat.HeaterSays = false;
        Assert.Null(_vat.Run(5).WarmUp);
        _vat.HeaterSays = null;
        Begin("2026-03-02T07:00:00Z");
        _vat.HeaterOn = true;
        var warmUp = _vat.Run(60).WarmUp!;
        Assert.True(warmUp.WasEntered);
        Assert.Null(warmUp.SlowSince);
        Assert.InRange(warmUp.RiseK!.Value, warmUp.ExpectedRiseK.Low, warmUp.ExpectedRiseK.High);
        Assert.False(warmUp.IsLate(_vat.Stamp.Utc));
        var corridor = warmUp.Corridor(warmUp.ReadyBy!.Value, 12);
        Assert.Equal(13, corridor.Count);
        Assert.True(corridor[^1].HighC > corridor[^1].LowC && corridor[^1].LowC > warmUp.StartC);

        _vat.LiquorC = 40;
        Assert.Null(_vat.Run(10).WarmUp);
    }

    [Fact]
    public void A_heater_that_was_entered_but_does_not_heat_shows_within_half_an_hour()
    {
        _vat.HeaterSays = false;
        Begin(null);
        var warmUp = _vat.Run(30).WarmUp!;
        Assert.NotNull(warmUp.SlowSince);
        Assert.Contains(WarmUpCause.HeaterNotOn, warmUp.Causes);
        Assert.Contains(WarmUpCause.ProbeNotInLiquor, warmUp.Causes);
        Assert.InRange((_vat.Now - warmUp.SlowSince!.Value.Monotonic).TotalMinutes, 14, 26);
    }

    [Fact]
    public void Power_that_flows_begins_one_and_no_rise_then_means_that_probe_or_element_is_out_of_the_liquor()
    {
        _vat.HeaterSays = true;
        var warmUp = _vat.Run(30).WarmUp!;
        Assert.False(warmUp.WasEntered);
        Assert.Equal([WarmUpCause.ProbeNotInLiquor, WarmUpCause.ElementNotInLiquor], warmUp.Causes);
        _vat.HeaterSays = false;
        Assert.Null(_vat.Run(1).WarmUp);
    }

    [Fact]
    public void A_command_begins_one_where_nothing_says_whether_power_flows()
    {
        var usual = SampleVats.MadderLane();
        var vat = new ScriptedVat(usual with { Probes = [.. usual.Probes, SampleVats.Probe("madder-lane", "command", Quantity.HeaterCommand, 10)] });
        vat.Run(5);
        vat.CommandedOn = true;
        var warmUp = vat.Run(30).WarmUp!;
        Assert.False(warmUp.WasEntered);
        Assert.Contains(WarmUpCause.NoSupply, warmUp.Causes);
        vat.CommandedOn = false;
        Assert.Null(vat.Run(1).WarmUp);
    }

    [Fact]
    public void A_command_without_power_is_a_warm_up_that_does_not_come()
    {
        var usual = SampleVats.MadderLane();
        var vat = new ScriptedVat(usual with
        {
            Probes = [.. usual.Probes, SampleVats.Probe("madder-lane", "command", Quantity.HeaterCommand, 10), SampleVats.Probe("madder-lane", "heater", Quantity.Heater, 10)],
        });
        (vat.CommandedOn, vat.HeaterOn) = (true, true);
        Assert.Null(vat.Run(60).WarmUp!.SlowSince);
        vat.HeaterOn = false;
        Assert.NotNull(vat.Run(40).WarmUp!.SlowSince);
        vat.CommandedOn = false;
        Assert.Null(vat.Run(1).WarmUp);
    }

    [Fact]
    public void A_weak_heater_that_does_not_heat_shows_by_what_is_missing_in_hours()
    {
        var vat = new ScriptedVat(SampleVats.MadderLane() with { HeaterWatts = 250 }) { HeaterSays = false, LiquorC = 18 };
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, vat.Stamp));
        Assert.Null(vat.Run(60).WarmUp!.SlowSince);
        Assert.NotNull(vat.Run(360).WarmUp!.SlowSince);
    }

    [Fact]
    public void A_thermometer_that_repeats_one_value_may_have_stopped()
    {
        var vat = new ScriptedVat(SampleVats.MadderLane()) { HeaterOn = true, Scatter = 0, ProbeShows = _ => 27.5 };
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, vat.Stamp));
        Assert.Contains(WarmUpCause.ProbeStopped, vat.Run(40).WarmUp!.Causes);
    }

    [Fact]
    public void A_heater_that_dies_on_the_way_shows_within_half_an_hour()
    {
        Begin(null);
        _vat.HeaterOn = true;
        Assert.Null(_vat.Run(90).WarmUp!.SlowSince);
        _vat.PowerW = 0;
        Assert.NotNull(_vat.Run(30).WarmUp!.SlowSince);
    }

    [Fact]
    public void A_room_that_warms_by_turns_neither_lowers_what_is_expected_nor_ends_what_was_told()
    {
        var usual = SampleVats.MadderLane();
        var vat = new ScriptedVat(usual with { HeaterWatts = null }) { HeaterSays = false, ProbeShows = minutes => 20 + Math.Max(0, 0.4 * Math.Sin(minutes / 9)) };
        vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, vat.Stamp));
        var first = vat.Run(35).WarmUp!;
        Assert.NotNull(first.SlowSince);
        vat.Run(60, _ => Assert.NotNull(vat.Assessor.Assess(vat.Stamp).WarmUp!.SlowSince));
        Assert.Equal(first.LeastKPerHour!.Value, vat.Assessor.Assess(vat.Stamp).WarmUp!.LeastKPerHour!.Value, 0.2);

        (vat.ProbeShows, vat.HeaterOn) = (null, true);
        vat.Assessor.Note(new VatAct(VatActKind.Stir, vat.Stamp));
        Assert.Null(vat.Run(60).WarmUp!.SlowSince);
    }

    [Fact]
    public void Switching_off_ends_it()
    {
        Begin(null);
        Assert.NotNull(_vat.Run(5).WarmUp);
        _vat.Assessor.Note(new VatAct(VatActKind.HeaterOff, _vat.Stamp));
        Assert.Null(_vat.Run(1).WarmUp);
    }

    private void Begin(string? readyBy) =>
        _vat.Assessor.Note(new VatAct(VatActKind.HeaterOn, _vat.Stamp) { ReadyBy = readyBy is null ? null : DateTimeOffset.Parse(readyBy) });
}
