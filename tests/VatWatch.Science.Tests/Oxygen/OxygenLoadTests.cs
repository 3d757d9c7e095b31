using VatWatch.Science.Indigo;
using VatWatch.Science.Oxygen;

namespace VatWatch.Science.Tests.Oxygen;

// Expected figures: m = kL C A t with C of Benson and Krause at 45 °C (5.932 mg/L) and a free surface 0.50 m across, worked by hand.
public sealed class OxygenLoadTests
{
    private const double AreaSquareMetres = Math.PI / 4 * 0.50 * 0.50;

    [Theory]
    [InlineData(0.5, 0.140, 0.47, 0.94, 0.76)]
    [InlineData(1, 0.280, 0.94, 1.89, 1.52)]
    [InlineData(2, 0.559, 1.89, 3.78, 3.04)]
    [InlineData(4, 1.118, 3.78, 7.56, 6.08)]
    [InlineData(10, 2.795, 9.44, 18.9, 15.2)]
    [InlineData(30, 8.386, 28.3, 56.7, 45.6)]
    public void A_day_at_one_transfer_velocity(
        double velocity, double oxygen, double thioureaDioxideLow, double thioureaDioxideHigh, double dithionite)
    {
        var load = Day(new SurfaceHours(TransferVelocity.Exactly(velocity), 24));
        var use = ReducerNeed.ForOxygen(ReducingAgent.ThioureaDioxide, load);
        Assert.Equal(oxygen, load.HighGrams, 0.0006);
        AssertWithin1Percent(thioureaDioxideLow, use.LowGrams);
        AssertWithin1Percent(thioureaDioxideHigh, use.HighGrams);
        AssertWithin1Percent(dithionite, ReducerNeed.ForOxygen(ReducingAgent.Dithionite, load).HighGrams);
    }

    [Fact]
    public void Two_hours_of_dipping_weigh_more_than_the_rest_of_the_day()
    {
        var load = Day(new SurfaceHours(TransferVelocity.Exactly(15), 2), new SurfaceHours(TransferVelocity.Exactly(1), 22));
        Assert.Equal(0.606, load.HighGrams, 0.0006);
        Assert.True(load.Extrapolated);

        var use = ReducerNeed.ForOxygen(ReducingAgent.ThioureaDioxide, load);
        Assert.Equal(2.05, use.LowGrams, 0.006);
        Assert.Equal(4.09, use.HighGrams, 0.006);
        Assert.Equal(3.30, ReducerNeed.ForOxygen(ReducingAgent.Dithionite, load).HighGrams, 0.006);
    }

    [Fact]
    public void States_give_a_band_and_enhancement_multiplies_it()
    {
        var plain = Day(SurfaceHours.In(SurfaceState.Dipping, 2), SurfaceHours.In(SurfaceState.CoveredStill, 22));
        Assert.Equal((5 * 2 + 0.3 * 22) * 0.01 * 5.932 * AreaSquareMetres, plain.LowGrams, 0.0001);
        Assert.Equal((15 * 2 + 1 * 22) * 0.01 * 5.932 * AreaSquareMetres, plain.HighGrams, 0.0001);

        var enhanced = OxygenLoad.ThroughSurfacePerDay([SurfaceHours.In(SurfaceState.Dipping, 2)], AreaSquareMetres, 45);
        var unenhanced = Day(SurfaceHours.In(SurfaceState.Dipping, 2));
        Assert.Equal(1.5 * unenhanced.HighGrams, enhanced.HighGrams, 1e-12);
    }

    // 9.092 mg/L at 20 °C (Benson and Krause): 200 L bring 1.818 g.
    [Fact]
    public void Fill_water_brings_its_own_oxygen()
    {
        var oxygen = OxygenLoad.InFillWaterGrams(200, 20);
        Assert.Equal(1.818, oxygen.Value, 0.0006);
        Assert.False(oxygen.Extrapolated);
        Assert.True(OxygenLoad.InFillWaterGrams(200, 45).Extrapolated);
    }

    // Ideal gas, 20.95 % oxygen: 0.279 g per litre of air at 20 °C.
    [Fact]
    public void Two_litres_of_air_in_the_cloth()
    {
        var oxygen = OxygenLoad.InCarriedAirGrams(2, 20);
        Assert.Equal(0.557, oxygen, 0.0006);

        var use = ReducerNeed.ForOxygen(ReducingAgent.ThioureaDioxide, oxygen);
        Assert.Equal(1.88, use.LowGrams, 0.006);
        Assert.Equal(3.77, use.HighGrams, 0.006);
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Day(SurfaceHours.In(SurfaceState.OpenStill, 25)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Day(SurfaceHours.In(SurfaceState.OpenStill, -1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => OxygenLoad.ThroughSurfacePerDay([], 0, 45));
        Assert.Throws<ArgumentOutOfRangeException>(() => OxygenLoad.ThroughSurfacePerDay([], 1, 45, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => OxygenLoad.InFillWaterGrams(-1, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => OxygenLoad.InCarriedAirGrams(double.NaN, 20));
    }

    private static MassRange Day(params SurfaceHours[] surface)
        => OxygenLoad.ThroughSurfacePerDay(surface, AreaSquareMetres, 45, enhancement: 1);

    private static void AssertWithin1Percent(double expected, double actual) => Assert.Equal(expected, actual, 0.011 * expected);
}
