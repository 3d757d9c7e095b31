using VatWatch.Conditions.Heating;

namespace VatWatch.Tests.Conditions.Heating;

public sealed class HeatPartsTests
{
    [Fact]
    public void A_mean_stands_at_the_mean_of_its_sample_times()
    {
        var maker = new MeanMaker(TimeSpan.FromMinutes(1));
        Assert.Null(maker.Add(TimeSpan.FromSeconds(0), 40, null));
        Assert.Null(maker.Add(TimeSpan.FromSeconds(50), 41, null));
        var mean = Assert.NotNull(maker.Add(TimeSpan.FromSeconds(61), 44, 20));
        Assert.Equal(40.5, mean.LiquorC);
        Assert.Equal(25, mean.At.TotalSeconds);
        Assert.Equal(2, mean.Count);
    }

    [Fact]
    public void A_line_is_the_least_squares_one_with_its_error()
    {
        LiquorMean[] means = [.. Enumerable.Range(0, 21).Select(i => new LiquorMean(TimeSpan.FromMinutes(i), 30 + 0.15 * i + (i % 2 == 0 ? 0.02 : -0.02), null, 6))];
        var line = Assert.NotNull(RateLine.Through(means, TimeSpan.Zero));
        var (_, slope) = MathNet.Numerics.Fit.Line([.. means.Select(m => m.At.TotalHours)], [.. means.Select(m => m.LiquorC)]);
        Assert.Equal(slope, line.KPerHour, 1e-6);
        Assert.Equal(10, line.MeanAt.TotalMinutes, 1e-6);

        // Textbook: s / sqrt(Σ(t - mean)²) with s about 0.02 K and Σ = 770 min².
        Assert.Equal(0.0205 / Math.Sqrt(770) * 60, line.Sigma, 0.005);
        Assert.Null(RateLine.Through(means, TimeSpan.FromMinutes(18)));
    }

    [Fact]
    public void Two_edges_at_one_temperature_make_a_thermostat_and_two_far_apart_do_not()
    {
        var sense = new ThermostatSense();
        sense.WentOff(38);
        sense.WentOff(44.4);
        Assert.Null(sense.OffC);
        sense.WentOff(44.6);
        Assert.Equal(44.6, sense.OffC);
    }

    [Fact]
    public void A_lasting_shift_is_found_after_half_an_hour_and_noise_is_not()
    {
        var shift = new LossShift();
        var random = new Random(2);
        for (var i = 0; i < 500; i++)
        {
            var noise = MathNet.Numerics.Distributions.Normal.Sample(random, 0, 0.7);
            shift.Add(TimeSpan.FromMinutes(5 * i), TimeSpan.FromMinutes(5 * i + 5), 0.035 * noise, noise);
            Assert.Null(shift.Found);
        }

        shift.Clear();
        for (var i = 0; i < 6; i++)
        {
            Assert.Null(shift.Found);
            shift.Add(TimeSpan.FromMinutes(5 * i), TimeSpan.FromMinutes(5 * i + 5), -0.09, -2.6);
        }

        // 0.09 K in 5 min is 1.08 K/h: a lid at 46 °C (heat-balance reference, section 10).
        var found = Assert.NotNull(shift.Found);
        Assert.Equal(-1.08, found.KPerHour, 0.01);
        Assert.Equal(TimeSpan.Zero, found.Since);
    }

    [Theory]
    [InlineData(1400, 20, 4, 0.5, 0.3, true)]
    [InlineData(double.NaN, 20, 4, 0.5, 0.3, false)]
    [InlineData(1400, 0, 4, 0.5, 0.3, false)]
    [InlineData(1400, 20, -1, 0.5, 0.3, false)]
    [InlineData(1400, 20, 4, 0.5, 1.3, false)]
    public void A_damaged_record_is_told_from_a_good_one(double power, double powerSigma, double loss, double lossSigma, double correlation, bool good) =>
        Assert.Equal(good, new LearnedHeat(power, powerSigma, loss, lossSigma, correlation, null, null, null, 10, 1).IsPlausible);
}
