using MathNet.Numerics.OdeSolvers;
using VatWatch.Science.Heat.Forecast;
using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat.Model;

public class FirstOrderVatTests
{
    // Test vector of a separate program (Python).
    private static readonly FirstOrderVat Vector = new(1440, 3.15, 535_226, 20);

    [Fact]
    public void Time_meets_the_test_vector()
    {
        Assert.True(Vector.TryTimeTo(18, 46, out var seconds));
        Assert.Equal(10_691.25, seconds, 0.0051);
    }

    [Fact]
    public void Slopes_meet_the_test_vector()
    {
        var slopes = HeatingTimeSlopes.Of(Vector.HeatingKPerS, Vector.LossPerS, 20, 18, 46);
        Assert.Equal(-4.08359e6, slopes.ByHeating, 6.0);
        Assert.Equal(5.02020e7, slopes.ByLoss, 60.0);
        Assert.Equal(-24.0334, slopes.ByAmbient, 0.000051);
    }

    [Theory]
    [InlineData(2.7e-3, 6e-6, 18, 46)]
    [InlineData(2.7e-3, 3e-5, 18, 60)]
    [InlineData(0, 2e-5, 46, 30)]
    [InlineData(2e-3, 1e-9, 18, 46)]
    public void Slopes_agree_with_differences_of_the_time(double b, double a, double t0, double t1)
    {
        const double ambient = 20;
        var slopes = HeatingTimeSlopes.Of(b, a, ambient, t0, t1);
        Assert.Equal(1, Difference(x => Time(b + x, a, ambient, t0, t1), 1e-6) / slopes.ByHeating, 1e-4);
        Assert.Equal(1, Difference(x => Time(b, a + x, ambient, t0, t1), Math.Min(1e-8, a / 2)) / slopes.ByLoss, 1e-4);
        Assert.Equal(slopes.ByAmbient, Difference(x => Time(b, a, ambient + x, t0, t1), 0.01), 1e-4 * Math.Max(1, Math.Abs(slopes.ByAmbient)));
        Assert.Equal(1, Difference(x => Time(b, a, ambient, t0 + x, t1), 0.01) / slopes.ByStart, 1e-4);
        Assert.Equal(1, Difference(x => Time(b, a, ambient, t0, t1 + x), 0.01) / slopes.ByTarget, 1e-4);
    }

    [Fact]
    public void Closed_forms_agree_with_a_Runge_Kutta_integration()
    {
        foreach (var power in new[] { 0.0, 1000, 1500 })
            foreach (var loss in new[] { 0.9, 3.15, 17 })
            {
                var vat = new FirstOrderVat(power, loss, 400_000, 15);
                var path = RungeKutta.FourthOrder(46, 0, 30_000, 3001, (_, t) => (power - loss * (t - 15)) / 400_000);
                Assert.Equal(path[^1], vat.TemperatureAfter(46, 30_000), 1e-8);
                Assert.True(vat.TryTimeTo(46, path[1500], out var seconds));
                Assert.Equal(15_000, seconds, 1e-3);
            }
    }

    [Fact]
    public void Without_losses_it_is_the_plain_quotient_and_no_digit_is_lost_near_it()
    {
        var none = new FirstOrderVat(1500, 0, 400_000, 20);
        Assert.True(none.TryTimeTo(18, 46, out var plain));
        Assert.Equal(28 * 400_000 / 1500.0, plain, 1e-9);
        Assert.Equal(46, none.TemperatureAfter(18, plain), 1e-10);
        Assert.Equal(double.PositiveInfinity, none.FinalC);

        // First-order correction x (1 + a (Tmean - Ta)/b): exact to a², which is 1e-16 here.
        var nearly = new FirstOrderVat(1500, 1e-7, 400_000, 20);
        Assert.True(nearly.TryTimeTo(18, 46, out var seconds));
        Assert.Equal(plain * (1e-7 * 12 / 1500), seconds - plain, 1e-10);
        var slopes = HeatingTimeSlopes.Of(none.HeatingKPerS, 0, 20, 18, 46);
        Assert.Equal(plain * 12 / none.HeatingKPerS, slopes.ByLoss, 1e-4);
    }

    // Worked example of a separate program: reflective wrap and lid, UA 3.152 W/K, time constant 47.17 h.
    [Fact]
    public void The_worked_example_with_losses_is_met()
    {
        var vat = new FirstOrderVat(1440, 3.152, 3.152 * 47.17 * 3600, 20);
        Assert.Equal(476.9, vat.FinalC, 0.06);
        Assert.True(vat.TryTimeTo(18, 46, out var seconds));
        Assert.Equal(2.970, seconds / 3600, 0.0011);
        Assert.Equal(40.2, new FirstOrderVat(0, 3.152, vat.CapacityJPerK, 20).TemperatureAfter(46, 12 * 3600), 0.051);
        Assert.Equal(82, vat.HoldingW(46), 0.5);
    }

    // The US customary rule: 8.33 lb per gallon, 1 Btu per lb and °F, 3412 Btu per kWh. 66 gal by 50.4 °F with 3 kW takes 2.707 h.
    [Fact]
    public void US_customary_arithmetic_gives_the_same_time()
    {
        const double hoursByRule = 66 * 8.33 * 50.4 / (3412 * 3.0);
        Assert.Equal(2.707, hoursByRule, 0.00051);
        var capacity = VatHeatCapacity.LiquorJPerK(66 * 3.785411784, 18, 46);
        Assert.True(new FirstOrderVat(3000, 0, capacity, 20).TryTimeTo(18, 46, out var seconds));
        Assert.Equal(hoursByRule, seconds / 3600, 0.0015 * hoursByRule);
    }

    // Enthalpy rise 117.054 kJ/kg from 18 to 46 °C (IAPWS-IF97): 250 L with 3 kW, 9741 s without losses.
    [Fact]
    public void The_lossless_worked_example_is_met()
    {
        var capacity = VatHeatCapacity.LiquorJPerK(250, 18, 46);
        Assert.Equal(2 * 124.824 * 117_054 / 28, capacity, 3e-5 * capacity);
        Assert.True(new FirstOrderVat(3000, 0, capacity, 20).TryTimeTo(18, 46, out var seconds));
        Assert.Equal(9741, seconds, 2.0);
    }

    [Fact]
    public void A_temperature_beyond_the_final_one_or_behind_is_not_reached()
    {
        var vat = new FirstOrderVat(400, 20, 400_000, 20);
        Assert.False(vat.TryTimeTo(18, 40, out _));
        Assert.False(vat.TryTimeTo(30, 25, out _));
        Assert.True(vat.TryTimeTo(30, 30, out var nothing));
        Assert.Equal(0, nothing);
        Assert.Throws<ArgumentOutOfRangeException>(() => HeatingTimeSlopes.Of(1e-3, 1e-4, 20, 18, 40));
        Assert.Throws<ArgumentOutOfRangeException>(() => new FirstOrderVat(-1, 0, 1, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => new FirstOrderVat(1000, 3, 0, 20));
    }

    // Worked examples of a separate program, vat of 535 226 J/K at 46 °C: wet yarn and a top-up.
    [Fact]
    public void Cold_yarn_and_a_top_up_cool_the_vat_as_computed()
    {
        Assert.Equal(46 - 0.72, Mixing.TemperatureC(535_226, 46, VatHeatCapacity.WetYarnJPerK(2, 3, 20), 20), 0.0051);
        Assert.Equal(46 - 1.90, Mixing.TemperatureC(535_226, 46, VatHeatCapacity.WetYarnJPerK(4, 8, 18), 18), 0.0051);
        Assert.Equal(46 - 2.25, Mixing.TemperatureC(535_226, 46, VatHeatCapacity.WaterJPerK(9.991, 15), 15), 0.0051);
    }

    private static double Time(double b, double a, double ambient, double t0, double t1)
    {
        Assert.True(HeatingTime.TrySeconds(b - a * (t0 - ambient), a, t1 - t0, out var seconds));
        return seconds;
    }

    private static double Difference(Func<double, double> f, double step) => (f(step) - f(-step)) / (2 * step);
}
