using System.Runtime.CompilerServices;

namespace VatWatch.Science;

/// <summary>Checks of arguments: the sentence says which value was seen and which range was wanted.</summary>
internal static class Wanted
{
    /// <summary>0 K in degrees Celsius, exact by definition of the scale.</summary>
    public const double AbsoluteZeroC = -273.15;

    /// <summary>Returns <paramref name="value"/> if it is a number from <paramref name="low"/> to <paramref name="high"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, or outside the range.</exception>
    public static double Within(
        double value, double low, double high, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= low && value <= high
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} is {Text(value, unit)}; wanted {low} to {Text(high, unit)}.");

    /// <summary>Returns <paramref name="value"/> if it is finite and above zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite, zero or negative.</exception>
    public static double Positive(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value > 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} is {Text(value, unit)}; wanted a number above {Text(0, unit)}.");

    /// <summary>Returns <paramref name="value"/> if it is finite and not below zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite or negative.</exception>
    public static double NotNegative(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} is {Text(value, unit)}; wanted {Text(0, unit)} or more.");

    /// <summary>Returns <paramref name="value"/> if it is finite.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static double Finite(double value, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} is {Text(value, unit)}; wanted a finite number.");

    /// <summary>Returns <paramref name="value"/> if it is finite and not below <paramref name="low"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite or below.</exception>
    public static double AtLeast(
        double value, double low, string unit, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= low && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} is {Text(value, unit)}; wanted {Text(low, unit)} or more.");

    /// <summary>Returns <paramref name="value"/> if it is a temperature above absolute zero, °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite, or at or below absolute zero.</exception>
    public static double TemperatureC(double value, [CallerArgumentExpression(nameof(value))] string name = "") =>
        value > AbsoluteZeroC && double.IsFinite(value) ? value : throw Refusal(value, name, "a temperature above -273.15 °C");

    /// <summary>The absolute temperature, K, of a temperature in °C that exists.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN, infinite, or at or below absolute zero.</exception>
    public static double Kelvin(double temperatureC, [CallerArgumentExpression(nameof(temperatureC))] string name = "") =>
        TemperatureC(temperatureC, name) - AbsoluteZeroC;

    /// <summary>The refusal of a value for a reason the other checks cannot word.</summary>
    public static ArgumentOutOfRangeException Refusal(double seen, string name, string wanted) =>
        new(name, seen, $"{name} is {seen}; wanted {wanted}.");

    private static string Text(double value, string unit) => unit.Length == 0 ? $"{value}" : $"{value} {unit}";
}
