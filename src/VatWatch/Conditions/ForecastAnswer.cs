namespace VatWatch.Conditions;

/// <summary>A forecast, or why there is none.</summary>
/// <param name="Forecast">The time ahead; null when it is not to be expected.</param>
/// <param name="WhyNot">Then the reason, as a clause.</param>
public readonly record struct ForecastAnswer(Forecast? Forecast, string? WhyNot);
