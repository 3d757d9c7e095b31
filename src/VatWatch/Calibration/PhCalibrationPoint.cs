using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Calibration;

/// <summary>One buffer of a pH calibration.</summary>
/// <param name="Buffer">Name of the buffer, such as <c>technical 7.00</c> or <c>bottle 10.01</c>.</param>
/// <param name="Point">Voltage, pH at the buffer's temperature, and that temperature.</param>
/// <param name="Settling">How long the electrode took to come to rest; null when nobody timed it.</param>
/// <param name="Extrapolated">True when the buffer was used outside the temperatures of its table.</param>
public sealed record PhCalibrationPoint(string Buffer, PhPoint Point, TimeSpan? Settling = null, bool Extrapolated = false)
{
    /// <summary>The point that <paramref name="buffer"/> makes at this voltage and temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public static PhCalibrationPoint In(PhBuffer buffer, double electrodeMillivolts, double temperatureC, TimeSpan? settling = null)
    {
        var ph = buffer.PhAt(temperatureC);
        return new(buffer.Name, new PhPoint(electrodeMillivolts, ph.Value, temperatureC), settling, ph.Extrapolated);
    }
}
