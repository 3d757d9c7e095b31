using VatWatch.Science.Heat.Forecast;

namespace VatWatch.Science.Tests.Heat.Forecast;

public class HeatingForecasterTests
{
    private const double CapacityJPerK = 3.152 * 47.17 * 3600;

    private static readonly HeatingForecastInputs WrapAndLid = new()
    {
        StartC = 18,
        TargetC = 46,
        HeatingKPerS = 1440 / CapacityJPerK,
        LossPerS = 3.152 / CapacityJPerK,
        AmbientC = 20,
        HeatingSigma = 0.02 * 1440 / CapacityJPerK,
        LossSigma = 0.5 * 3.152 / CapacityJPerK,
        AmbientSigmaK = 2,
        StartSigmaK = 0.1,
    };

    // Example of a separate program: 178 min, contributions 3.7, 2.5, 0.8 and 0.6 min, sigma 4.5 min, band ±9 min.
    [Fact]
    public void The_worked_example_is_met()
    {
        var forecast = HeatingForecaster.Predict(WrapAndLid);
        Assert.Equal(ForecastOutcome.Expected, forecast.Outcome);
        Assert.Equal(178, forecast.ExpectedSeconds!.Value / 60, 0.5);
        Assert.Equal(4.5, forecast.SigmaSeconds!.Value / 60, 0.11);
        Assert.Equal(9, (forecast.LateSeconds!.Value - forecast.ExpectedSeconds!.Value) / 60, 0.25);
        Assert.Equal(9, (forecast.ExpectedSeconds!.Value - forecast.EarlySeconds!.Value) / 60, 0.25);
        Assert.False(forecast.Plateau);
    }

    [Fact]
    public void Each_contribution_is_that_of_the_worked_example()
    {
        var slopes = HeatingTimeSlopes.Of(WrapAndLid.HeatingKPerS, WrapAndLid.LossPerS, 20, 18, 46);
        Assert.Equal(3.7, -slopes.ByHeating * WrapAndLid.HeatingSigma / 60, 0.051);
        Assert.Equal(2.5, slopes.ByLoss * WrapAndLid.LossSigma / 60, 0.051);
        Assert.Equal(0.8, -slopes.ByAmbient * 2 / 60, 0.051);
        Assert.Equal(0.6, -slopes.ByStart * 0.1 / 60, 0.051);
    }

    // The band must hold about 95 % of outcomes: drawn here from the inputs' own deviations, 20 000 times, seeded.
    [Fact]
    public void The_band_holds_95_percent_of_drawn_outcomes()
    {
        var forecast = HeatingForecaster.Predict(WrapAndLid);
        var random = new Random(20_240_611);
        var inside = 0;
        for (var i = 0; i < 20_000; i++)
        {
            var b = WrapAndLid.HeatingKPerS + WrapAndLid.HeatingSigma * Normal(random);
            var a = Math.Max(0, WrapAndLid.LossPerS + WrapAndLid.LossSigma * Normal(random));
            var start = 18 + 0.1 * Normal(random);
            Assert.True(HeatingTime.TrySeconds(b - a * (start - 20 - 2 * Normal(random)), a, 46 - start, out var seconds));
            if (seconds >= forecast.EarlySeconds && seconds <= forecast.LateSeconds)
                inside++;
        }

        Assert.InRange(inside / 20_000.0, 0.935, 0.965);
    }

    [Fact]
    public void The_model_share_widens_the_band()
    {
        var wide = HeatingForecaster.Predict(WrapAndLid with { ModelShare = 0.025 });
        Assert.Equal(Math.Sqrt(4.56 * 4.56 + 0.025 * 0.025 * 178 * 178), wide.SigmaSeconds!.Value / 60, 0.1);
    }

    [Fact]
    public void Near_a_plateau_the_band_is_skewed()
    {
        // Final temperature 50 °C for a target of 46: the rate left is 4/30 of the first.
        var inputs = WrapAndLid with
        {
            StartC = 20,
            HeatingKPerS = 30e-5,
            LossPerS = 1e-5,
            HeatingSigma = 0.01 * 30e-5,
            LossSigma = 0.01 * 1e-5,
            AmbientSigmaK = 0.1,
        };
        var forecast = HeatingForecaster.Predict(inputs);
        Assert.Equal(ForecastOutcome.Expected, forecast.Outcome);
        Assert.True(forecast.Plateau);
        Assert.True(forecast.LateSeconds - forecast.ExpectedSeconds > 1.2 * (forecast.ExpectedSeconds - forecast.EarlySeconds));
        Assert.True(HeatingTime.TrySeconds(30e-5 * 1.02, 1e-5 * 0.98, 26, out var early));
        Assert.Equal(early, forecast.EarlySeconds!.Value, 1e-6);
        Assert.True(HeatingTime.TrySeconds(30e-5 * 0.98, 1e-5 * 1.02, 26, out var late));
        Assert.Equal(late, forecast.LateSeconds!.Value, 1e-6);
    }

    [Fact]
    public void A_target_only_just_in_reach_is_uncertain_and_one_beyond_is_not_reachable_but_keeps_its_early_edge()
    {
        var inputs = WrapAndLid with
        {
            StartC = 20,
            HeatingKPerS = 30e-5,
            LossPerS = 1e-5,
            HeatingSigma = 0.1 * 30e-5,
            LossSigma = 0.1 * 1e-5,
        };
        var near = HeatingForecaster.Predict(inputs);
        Assert.Equal(ForecastOutcome.Uncertain, near.Outcome);
        Assert.NotNull(near.EarlySeconds);
        Assert.Null(near.LateSeconds);
        var beyond = HeatingForecaster.Predict(inputs with { TargetC = 52 });
        Assert.Equal(ForecastOutcome.NotReachable, beyond.Outcome);
        Assert.Null(beyond.ExpectedSeconds);
        Assert.NotNull(beyond.EarlySeconds);
        Assert.Null(HeatingForecaster.Predict(inputs with { TargetC = 90 }).EarlySeconds);
    }

    [Fact]
    public void A_vat_past_the_target_has_reached_it()
    {
        Assert.Equal(ForecastOutcome.Reached, HeatingForecaster.Predict(WrapAndLid with { StartC = 47 }).Outcome);
        Assert.Equal(ForecastOutcome.Reached, HeatingForecaster.Predict(WrapAndLid with { StartC = 40 }, rising: false).Outcome);
    }

    [Fact]
    public void Cooling_is_forecast_by_the_same_forms()
    {
        var inputs = WrapAndLid with { StartC = 46, TargetC = 40.2, HeatingKPerS = 0, HeatingSigma = 0, LossSigma = 0.05 * WrapAndLid.LossPerS };
        var forecast = HeatingForecaster.Predict(inputs, rising: false);
        Assert.Equal(12, forecast.ExpectedSeconds!.Value / 3600, 0.1);
        Assert.True(forecast.EarlySeconds < forecast.ExpectedSeconds && forecast.ExpectedSeconds < forecast.LateSeconds);
    }

    // Case of a stuck heater (reflective wrap and lid, 1440 W): 52 °C 40 min after 46 °C; a separate program.
    [Fact]
    public void Time_to_a_limit_follows_from_the_measured_slope()
    {
        var slope = (1440 - 3.152 * 26) / CapacityJPerK;
        var forecast = HeatingForecaster.Predict(
            HeatingForecastInputs.FromSlope(46, 52, slope, 0.03 * slope, 3.152 / CapacityJPerK, 0.3 * 3.152 / CapacityJPerK));
        Assert.Equal(40, forecast.ExpectedSeconds!.Value / 60, 0.5);
        Assert.InRange(forecast.EarlySeconds!.Value / 60, 35, 39.5);
    }

    [Fact]
    public void Inputs_that_are_not_numbers_are_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => HeatingForecaster.Predict(WrapAndLid with { LossSigma = double.NaN }));

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
