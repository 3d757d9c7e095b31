using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

/// <summary>Case D of the heat-balance reference loses 3.15 W/K from 535,226 J/K: 0.0211872 of what it is above the room in an hour.</summary>
public sealed class UnheatedVatTests
{
    private const double LossPerHour = 3.15 / ReferenceVat.CapacityJPerK * 3600;
    private static readonly DateTimeOffset Evening = new(2031, 3, 14, 20, 0, 0, TimeSpan.Zero);
    private static readonly SeenHeat Nothing = new([], null) { Room = new(0) };

    [Fact]
    public void Of_a_vat_that_was_not_seen_to_cool_the_balance_says_it() =>
        Assert.Equal(20 + 20 * Math.Exp(-8 * LossPerHour), At8(Nothing), 1e-6);

    /// <summary>By a wave of 4 K the room is 2 K above its mean of the day at 20 h and 4 K below it at 4 h, over these eight hours 1.65 K below it (the integral of the cosine).</summary>
    [Fact]
    public void A_room_that_grows_cold_by_night_takes_the_vat_along()
    {
        var meanAboveK = 4 * (Math.Sin(Math.Tau * 12 / 24) - Math.Sin(Math.Tau * 4 / 24)) / (Math.Tau * 8 / 24);
        var expected = 20 - 2 + meanAboveK + (20 + 2 - meanAboveK) * Math.Exp(-8 * LossPerHour);
        Assert.Equal(expected, At8(Nothing with { Room = new(4) }), 0.05);
        Assert.InRange(At8(Nothing) - expected, 0.4, 0.8);
    }

    [Fact]
    public void What_is_seen_to_happen_counts_by_how_sure_it_is()
    {
        var (sure, doubtful) = (At8(Cooling(-0.8, 0.05)), At8(Cooling(-0.8, 0.5)));
        Assert.True(sure < doubtful - 0.3 && doubtful < At8(Nothing) - 0.3);
        Assert.Equal(At8(Nothing), At8(Cooling(-20 * LossPerHour, 0.05)), 0.01);
    }

    [Fact]
    public void A_slope_that_nothing_else_bears_out_is_taken_for_a_hand()
    {
        double Fallen(double kPerHour) => 40 - At8(Cooling(kPerHour, 0.3));
        Assert.True(Fallen(-4) < 4.5 * Fallen(-0.42));
    }

    /// <summary>From 45 to 30 °C in 10 h in a room of 20 °C is ln 2.5 in 10 h = 0.0916 an hour, of which a day's work with lid and goods is taken to have made a quarter.</summary>
    [Fact]
    public void A_day_in_which_the_vat_fell_far_foretells_a_fast_night()
    {
        var after = At8(Nothing with { Fall = new(45, 30, 10) });
        Assert.InRange(after, 20 + 20 * Math.Exp(-8 * Math.Log(2.5) / 10 * Math.Exp(-0.3)), At8(Nothing) - 2);
    }

    [Fact]
    public void A_balance_that_knows_of_no_loss_is_not_believed() =>
        Assert.InRange(At8(Nothing, ReferenceVat.Heat with { LossWPerK = 0 }), 37, 39.5);

    private static SeenHeat Cooling(double kPerHour, double sigma) => Nothing with { Cooling = new(kPerHour, sigma, 40) };

    private static double At8(SeenHeat seen, VatHeat? heat = null) =>
        new UnheatedVat(ReferenceVat.From(38), heat ?? ReferenceVat.Heat, seen, new(Evening.AddHours(12), 46, Evening, 40), TimeZoneInfo.Utc).CooledTo(Evening.AddHours(8));
}
