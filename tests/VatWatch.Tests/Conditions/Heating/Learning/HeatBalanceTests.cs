using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Heating.Learning;

/// <summary>A vat of one mixed mass, case D of the heat-balance reference brought to 40 gal, drives the balance directly.</summary>
public sealed class HeatBalanceTests
{
    private const double TruePowerW = 1400;
    private const double TrueLossWPerK = 3.6;
    private const double RoomC = 18;
    private readonly HeatPrior _prior = HeatPrior.Of(SampleVats.MadderLane());
    private readonly HeatBalance _balance;
    private readonly Random _random = new(9);
    private TimeSpan _now = TimeSpan.FromHours(1);
    private double _liquorC = 20;
    private double _lossWPerK = TrueLossWPerK;
    private double _powerW = TruePowerW;

    public HeatBalanceTests() => _balance = new HeatBalance(_prior);

    [Fact]
    public void A_warm_up_and_a_night_of_cooling_give_power_and_loss()
    {
        Run(TimeSpan.FromHours(3), on: true, room: RoomC);
        Run(TimeSpan.FromHours(4), on: false, room: RoomC);
        var learned = _balance.Learned(null);
        Assert.Equal(TruePowerW, learned.PowerW, 3 * learned.PowerSigmaW);
        Assert.Equal(TrueLossWPerK, learned.LossWPerK, 3 * learned.LossSigmaWPerK);

        // Heat-balance reference, simulation of case D after 14 h with the room measured: ±4 W, ±0.02 W/K.
        Assert.InRange(learned.PowerSigmaW, 0, 30);
        Assert.InRange(learned.LossSigmaWPerK, 0, 0.6);
        Assert.Equal(1, learned.Nights);
    }

    [Fact]
    public void Without_a_room_probe_the_power_is_still_found()
    {
        Run(TimeSpan.FromHours(3), on: true, room: null);
        Run(TimeSpan.FromHours(3), on: false, room: null);
        var learned = _balance.Learned(null);
        Assert.InRange(learned.PowerW, 1340, 1460);
        Assert.InRange(learned.LossWPerK, 0, 8);
    }

    [Fact]
    public void A_heater_that_does_not_heat_is_not_learned_as_a_weak_one()
    {
        Run(TimeSpan.FromHours(2), on: true, room: RoomC);
        var before = _balance.Learned(null).PowerW;
        Run(TimeSpan.FromHours(1), on: false, room: RoomC, saidOn: true);
        Assert.Equal(before, _balance.Learned(null).PowerW, 1.0);
    }

    [Fact]
    public void A_stronger_heater_than_it_was_thought_to_be_is_learned()
    {
        Run(TimeSpan.FromHours(2), on: true, room: RoomC);
        (_powerW, _liquorC) = (2200, 20);
        Run(TimeSpan.FromHours(1.5), on: true, room: RoomC);
        Assert.InRange(_balance.Learned(null).PowerW, 2100, 2300);
    }

    [Fact]
    public void A_lid_taken_off_is_found_from_the_losses_and_found_to_be_back()
    {
        _liquorC = 46;
        Run(TimeSpan.FromHours(3), on: false, room: RoomC);
        Assert.Null(_balance.OpenSince);
        var opened = _now;
        _lossWPerK = TrueLossWPerK + 220.0 / 26;
        Run(TimeSpan.FromMinutes(50), on: false, room: RoomC);
        var since = Assert.NotNull(_balance.OpenSince);
        Assert.InRange((since - opened).TotalMinutes, -10, 30);
        Assert.InRange(_balance.OpenCostsW!.Value, 100, 300);
        _lossWPerK = TrueLossWPerK;
        Run(TimeSpan.FromMinutes(75), on: false, room: RoomC);
        Assert.Null(_balance.OpenSince);
        var learned = _balance.Learned(null);
        Assert.True(learned.OpenLossWPerK > learned.LossWPerK + 3, $"{learned}");
    }

    [Fact]
    public void What_was_learned_is_taken_up_a_little_less_sure()
    {
        Run(TimeSpan.FromHours(3), on: true, room: RoomC);
        Run(TimeSpan.FromHours(3), on: false, room: RoomC);
        var learned = _balance.Learned(44);
        var next = new HeatBalance(_prior);
        next.Restore(learned);
        var again = next.Learned(44);
        Assert.Equal(learned.PowerW, again.PowerW, 1e-6);
        Assert.True(again.LossSigmaWPerK > learned.LossSigmaWPerK);
        Assert.Equal(learned.Nights, again.Nights);
        Assert.Equal(learned.Windows, again.Windows);
        Assert.NotNull(next.Usual?.HeatingKPerHour);
    }

    private void Run(TimeSpan time, bool on, double? room, bool? saidOn = null)
    {
        _balance.BreakOff();
        for (var end = _now + time; _now < end; _now += TimeSpan.FromMinutes(1))
        {
            // Mean of a minute of 10 s samples of 0.06 K.
            _balance.Add(new LiquorMean(_now, _liquorC + 0.025 * (2 * _random.NextDouble() - 1), room, 6), saidOn ?? on, 0.01);
            var watts = (on ? _powerW : 0) - _lossWPerK * (_liquorC - RoomC);
            _liquorC += watts * 60 / _prior.CapacityJPerK;
        }
    }
}
