using System.Runtime.CompilerServices;

namespace VatWatch.Science;

/// <summary>Checks of arguments: the sentence says which value was seen and which range was wanted.</summary>
internal static class Wanted
{
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

    private static string Text(double value, string unit) => unit.Length == 0 ? $"{value}" : $"{value} {unit}";
}
