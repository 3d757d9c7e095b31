using VatWatch.Conditions.Heating.Heater;
using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Heater;

public sealed class FirstRiseTests
{
    private readonly FirstRise _rise = new();
    private TimeSpan _now = TimeSpan.FromHours(1);

    [Fact]
    public void What_is_seen_is_usual_from_the_next_night_on_and_the_least_of_nights_counts()
    {
        Assert.Null(Night(8, 39)!.Value.UsualK);
        Assert.Equal(8 * 37.0 / 60, Night(6, 39)!.Value.UsualK!.Value, 0.2);
        Assert.Equal(6 * 37.0 / 60, Night(8, 39)!.Value.UsualK!.Value, 0.2);
    }

    [Fact]
    public void Losses_are_put_back()
    {
        var seen = Night(8, 30, lossPerHour: 0.1)!.Value;
        Assert.Equal(0.1 * 2 * 0.5, seen.LostK, 1e-9);
        Assert.Equal(4 + seen.LostK, seen.GainK, 1e-9);
    }

    [Fact]
    public void Nothing_is_said_in_the_first_minutes_after_the_first_hour_or_where_only_a_slope_shows_the_heater()
    {
        Assert.Null(Night(8, 20));
        Assert.Null(Night(8, 80));
        _rise.Begin(null, 20);
        Assert.Null(_rise.Seen(new(_now + TimeSpan.FromMinutes(40), 25, 20, 6), Estimate(0)));
    }

    [Fact]
    public void A_gap_ends_what_was_begun_but_not_what_waits_for_its_first_reading()
    {
        _rise.Begin(_now, null);
        _rise.Interrupt();
        Assert.Null(_rise.Seen(new(_now, 20, 20, 6), Estimate(0)));
        Assert.NotNull(_rise.Seen(new(_now + TimeSpan.FromMinutes(40), 25, 20, 6), Estimate(0)));
        _rise.Interrupt();
        Assert.Null(_rise.Seen(new(_now + TimeSpan.FromMinutes(41), 25, 20, 6), Estimate(0)));
    }

    [Fact]
    public void It_is_kept_for_another_run_and_what_no_vat_shows_is_left_out()
    {
        Night(8, 39);
        var other = new FirstRise();
        other.Restore(_rise.Kept);
        other.Begin(_now, 20);
        Assert.Equal(8 * 37.0 / 60, other.Seen(new(_now + TimeSpan.FromMinutes(37), 25, 20, 6), Estimate(0))!.Value.UsualK!.Value, 0.2);
        var damaged = new FirstRise();
        damaged.Restore([.. _rise.Kept.Select(_ => (double?)double.NaN)]);
        Assert.All(damaged.Kept, Assert.Null);
    }

    /// <summary>A night of so many minutes that rises evenly from the room's 20 °C; what its last minute shows.</summary>
    private Risen? Night(double kPerHour, int minutes, double lossPerHour = 0)
    {
        _rise.Begin(_now, 20);
        Risen? seen = null;
        for (var minute = 1; minute <= minutes; minute++)
        {
            seen = _rise.Seen(new LiquorMean(_now + TimeSpan.FromMinutes(minute), 20 + kPerHour * minute / 60, 20, 6), Estimate(lossPerHour));
            if (seen is { } well)
            {
                _rise.Learn(well);
            }
        }

        _now += TimeSpan.FromHours(20);
        return seen;
    }

    private static HeatEstimate Estimate(double lossPerHour) => new()
    {
        HeatingKPerHour = 8,
        HeatingVariance = 0.01,
        LossPerHour = lossPerHour,
        LossVariance = 0,
        HeatingLossCovariance = 0,
        ReferenceC = 20,
        CapacityJPerK = 600_000,
        Windows = 10,
        EarlierNights = 0,
    };
}
