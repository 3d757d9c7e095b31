namespace VatWatch.Science.Heat.Forecast;

/// <summary>What a forecast is made from, each with its standard deviation. Rates per second, temperatures in °C.</summary>
public sealed record HeatingForecastInputs
{
    public required double StartC { get; init; }

    public required double TargetC { get; init; }

    /// <summary>b = P/C, K/s, with the heater as it is. If its state is unknown assume it stays on.</summary>
    public required double HeatingKPerS { get; init; }

    /// <summary>a = UA/C, 1/s.</summary>
    public required double LossPerS { get; init; }

    public required double AmbientC { get; init; }

    public double HeatingSigma { get; init; }

    public double LossSigma { get; init; }

    /// <summary>Covariance of heating and loss rate, K/s².</summary>
    public double HeatingLossCovariance { get; init; }

    public double AmbientSigmaK { get; init; }

    public double StartSigmaK { get; init; } = 0.1;

    /// <summary>Standard deviation of the model as a share of the time.</summary>
    public double ModelShare { get; init; }

    /// <summary>
    /// A forecast from the slope measured now: with the present temperature as its origin the slope takes the place of the heating rate and the room drops out.
    /// </summary>
    public static HeatingForecastInputs FromSlope(
        double startC, double targetC, double slopeKPerS, double slopeSigma, double lossPerS, double lossSigma) => new()
        {
            StartC = startC,
            TargetC = targetC,
            HeatingKPerS = slopeKPerS,
            HeatingSigma = slopeSigma,
            LossPerS = lossPerS,
            LossSigma = lossSigma,
            AmbientC = startC,
        };
}
