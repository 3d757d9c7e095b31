namespace VatWatch.Science.Heat.Forecast;

/// <summary>Forecasts of warming and of cooling, and of the time to a limit, by propagation of the inputs' deviations.</summary>
public static class HeatingForecaster
{
    // Two standard deviations hold 95 % of a normal distribution.
    private const double BandSigmas = 2;

    // Where the rate at the target is below this share of the rate now, the distribution is skewed and the linear band does not hold.
    private const double PlateauShare = 0.2;

    /// <summary>Forecast of the time from the present temperature to the target.</summary>
    /// <param name="inputs">Best estimates and standard deviations.</param>
    /// <param name="rising">Direction of interest: true asks when it will be as warm as the target, false when it will be as cold.</param>
    public static HeatingForecast Predict(HeatingForecastInputs inputs, bool rising = true)
    {
        Check(inputs);
        var change = inputs.TargetC - inputs.StartC;
        if (rising ? change <= 0 : change >= 0)
            return new(ForecastOutcome.Reached, 0, 0, 0, 0, false);

        var sign = rising ? 1 : -1;
        var rateNow = Rate(inputs, inputs.StartC);
        var rateAtTarget = Rate(inputs, inputs.TargetC);
        var early = Corner(inputs, sign);
        var late = Corner(inputs, -sign);
        if (!HeatingTime.TrySeconds(rateNow, inputs.LossPerS, change, out var expected))
            return new(ForecastOutcome.NotReachable, early, null, null, null, true);

        var sigma = Sigma(inputs, expected);
        var plateau = rateAtTarget / rateNow < PlateauShare;
        if (sign * rateAtTarget - BandSigmas * RateSigma(inputs) <= 0)
            return new(ForecastOutcome.Uncertain, early, expected, late, sigma, plateau);
        return plateau
            ? new(ForecastOutcome.Expected, early, expected, late, sigma, true)
            : new(
                ForecastOutcome.Expected,
                Math.Max(0, expected - BandSigmas * sigma),
                expected,
                expected + BandSigmas * sigma,
                sigma,
                false);
    }

    private static double Rate(HeatingForecastInputs i, double temperatureC) => i.HeatingKPerS - i.LossPerS * (temperatureC - i.AmbientC);

    // Standard deviation of the rate at the target: heating, loss and room.
    private static double RateSigma(HeatingForecastInputs i)
    {
        var above = i.TargetC - i.AmbientC;
        var variance = Square(i.HeatingSigma) + Square(above * i.LossSigma) - 2 * above * i.HeatingLossCovariance
            + Square(i.LossPerS * i.AmbientSigmaK);
        return Math.Sqrt(Math.Max(0, variance));
    }

    private static double Sigma(HeatingForecastInputs i, double expectedSeconds)
    {
        var slopes = HeatingTimeSlopes.Of(i.HeatingKPerS, i.LossPerS, i.AmbientC, i.StartC, i.TargetC);
        var variance = Square(slopes.ByHeating * i.HeatingSigma) + Square(slopes.ByLoss * i.LossSigma)
            + 2 * slopes.ByHeating * slopes.ByLoss * i.HeatingLossCovariance
            + Square(slopes.ByAmbient * i.AmbientSigmaK) + Square(slopes.ByStart * i.StartSigmaK)
            + Square(i.ModelShare * expectedSeconds);
        return Math.Sqrt(Math.Max(0, variance));
    }

    // Heating and loss both at the end of their bands that favours (sign > 0: warmer) or hinders. Losses favour warmth only below room temperature.
    private static double? Corner(HeatingForecastInputs i, int sign)
    {
        var towardsRoom = 0.5 * (i.StartC + i.TargetC) >= i.AmbientC ? -1 : 1;
        var loss = Math.Max(0, i.LossPerS + sign * towardsRoom * BandSigmas * i.LossSigma);
        var rate = i.HeatingKPerS + sign * BandSigmas * i.HeatingSigma - loss * (i.StartC - i.AmbientC);
        return HeatingTime.TrySeconds(rate, loss, i.TargetC - i.StartC, out var seconds) ? seconds : null;
    }

    private static double Square(double value) => value * value;

    private static void Check(HeatingForecastInputs i)
    {
        Wanted.Within(i.StartC, -60, 200, "°C");
        Wanted.Within(i.TargetC, -60, 200, "°C");
        Wanted.Within(i.AmbientC, -60, 200, "°C");
        Wanted.Finite(i.HeatingKPerS, "K/s");
        Wanted.NotNegative(i.LossPerS, "1/s");
        Wanted.NotNegative(i.HeatingSigma, "K/s");
        Wanted.NotNegative(i.LossSigma, "1/s");
        Wanted.Finite(i.HeatingLossCovariance, "K/s²");
        Wanted.NotNegative(i.AmbientSigmaK, "K");
        Wanted.NotNegative(i.StartSigmaK, "K");
        Wanted.NotNegative(i.ModelShare, "");
    }
}
