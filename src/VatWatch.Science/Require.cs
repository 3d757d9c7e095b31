using System.Globalization;
using System.Runtime.CompilerServices;

namespace VatWatch.Science;

/// <summary>
/// Refuses inputs that cannot exist (not a number, below absolute zero, a negative resistance) with one sentence saying what was
/// seen and what was wanted. Inputs that can exist but lie outside a source's range are not refused: see <see cref="Estimate"/>.
/// </summary>
internal static class Require
{
    /// <summary>0 K in degrees Celsius, exact by definition of the Celsius scale.</summary>
    internal const double AbsoluteZeroC = -273.15;

    internal static double Finite(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) ? value : throw Refusal(value, name, "a finite number");

    internal static double Positive(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) && value > 0 ? value : throw Refusal(value, name, "a finite number above 0");

    internal static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) && value >= 0 ? value : throw Refusal(value, name, "a finite number of 0 or more");

    internal static double Within(
        double value, double low, double high, [CallerArgumentExpression(nameof(value))] string name = "")
        => value >= low && value <= high
            ? value
            : throw Refusal(value, name, string.Create(CultureInfo.InvariantCulture, $"{low} to {high}"));

    /// <summary>A temperature above absolute zero, in °C.</summary>
    internal static double TemperatureC(double value, [CallerArgumentExpression(nameof(value))] string name = "")
        => double.IsFinite(value) && value > AbsoluteZeroC
            ? value
            : throw Refusal(value, name, "a temperature above -273.15 °C");

    /// <summary>The absolute temperature in kelvin of a temperature that exists.</summary>
    internal static double Kelvin(double temperatureC, [CallerArgumentExpression(nameof(temperatureC))] string name = "")
        => TemperatureC(temperatureC, name) - AbsoluteZeroC;

    internal static ArgumentOutOfRangeException Refusal(double seen, string name, string wanted)
        => new(name, string.Create(CultureInfo.InvariantCulture, $"{name} is {seen}; wanted {wanted}."));
}
