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
    public void Two_cut_offs_in_one_night_with_heating_between_make_a_thermostat()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        Assert.Null(cuts.ExpectedC);
        cuts.WentOn(TimeSpan.FromHours(2), 43);
        Assert.Equal(44.4, cuts.ExpectedC);
        Assert.Null(cuts.OffC);
        cuts.WentOff(TimeSpan.FromHours(3), 44.6);
        Assert.Equal(44.6, cuts.OffC);
    }

    [Fact]
    public void Cut_offs_of_two_nights_and_those_of_a_hand_make_none()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 44.4);
        cuts.WentOn(TimeSpan.FromHours(23), 25);
        Assert.Null(cuts.ExpectedC);
        cuts.WentOff(TimeSpan.FromHours(25), 44.5);
        Assert.Null(cuts.OffC);

        cuts.Switched();
        cuts.WentOn(TimeSpan.FromHours(26), 43);
        cuts.WentOff(TimeSpan.FromHours(27), 44.5);
        Assert.Null(cuts.OffC);
    }

    [Fact]
    public void A_pause_far_below_the_band_is_no_cut_off()
    {
        var cuts = new ThermostatCuts(38);
        cuts.WentOff(TimeSpan.FromHours(1), 30);
        cuts.WentOn(TimeSpan.FromHours(2), 29);
        cuts.WentOff(TimeSpan.FromHours(3), 30);
        Assert.Null(cuts.ExpectedC);
    }

    [Fact]
    public void Within_one_step_of_a_coarse_thermometer_no_number_of_points_is_a_slope()
    {
        LiquorMean[] flat = [.. Enumerable.Range(0, 21).Select(i => new LiquorMean(TimeSpan.FromMinutes(i), 30, null, 6))];
        Assert.InRange(RateLine.Through(flat, TimeSpan.Zero, stepK: 0.5)!.Value.Sigma, 0.5, 0.7);
    }

    [Fact]
    public void A_grain_is_the_smallest_step_and_the_noise_about_the_curve()
    {
        var grain = new Grain();
        var random = new Random(4);
        for (var i = 0; i < 200; i++)
        {
            var liquorC = 30 + 0.1 * i;
            grain.Add(Math.Round(liquorC * 8) / 8);
            grain.Add(new LiquorMean(TimeSpan.FromMinutes(i), liquorC + MathNet.Numerics.Distributions.Normal.Sample(random, 0, 0.05), null, 6));
        }

        Assert.Equal(0.125, grain.StepK, 1e-9);
        Assert.InRange(grain.NoiseK, 0.035, 0.07);
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
