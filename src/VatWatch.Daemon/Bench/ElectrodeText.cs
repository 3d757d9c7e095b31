using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Bench;

/// <summary>What a person writes about one solution: <c>7.00: 5.0 mV @ 25 °C</c>, or without the buffer's value <c>5.0 mV @ 25 °C</c>.</summary>
/// <param name="Label">The buffer's value; null when it is to be recognised.</param>
/// <param name="Millivolts">Voltage of the electrode, mV.</param>
/// <param name="TemperatureC">Temperature of the solution, °C.</param>
internal sealed record ElectrodeText(double? Label, double Millivolts, double TemperatureC)
{
    /// <summary>Beyond this no electrode in water goes, mV.</summary>
    private const double MostMillivolts = 2000;

    /// <summary>Reads it; false when it is not of this form or cannot be.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out ElectrodeText? read)
    {
        read = null;
        double? label = null;
        if (text.Split(':', 2) is [var before, var after])
        {
            if (!TryLabel(before, out var value))
            {
                return false;
            }

            (label, text) = (value, after);
        }

        if (text.Split('@') is [var voltage, var temperature]
            && QuantityKind.Potential.TryParse(voltage, out var millivolts)
            && Math.Abs(millivolts) <= MostMillivolts
            && TryTemperature(temperature, out var temperatureC))
        {
            read = new(label, millivolts, temperatureC);
        }

        return read is not null;
    }

    /// <summary>Reads a buffer's value, pH 0 to 14.</summary>
    public static bool TryLabel(string text, out double ph) =>
        double.TryParse(text.Trim(), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out ph) && ph is >= 0 and <= 14;

    /// <summary>Reads the temperature of a liquid solution, 0 to 100 °C.</summary>
    public static bool TryTemperature(string text, out double temperatureC) =>
        QuantityKind.Temperature.TryParse(text, out temperatureC) && temperatureC is >= 0 and <= 100;
}
