namespace VatWatch.Science.Electrodes.Ph;

/// <summary>
/// Makes a <see cref="PhLine"/> from one, two or more buffers. Buffers of unequal temperature are brought onto one line by the
/// factor T / T_c of each (derived here from the line's own temperature rule); T_c is their mean temperature.
/// </summary>
public static class PhFit
{
    /// <summary>
    /// Two buffers nearer than this give no trustworthy slope: a reading error of 1 mV would change the slope by more than 3 %.
    /// Our choice, no source.
    /// </summary>
    public const double LeastSpanPh = 0.5;

    /// <summary>One buffer: keeps the slope of <paramref name="slopeFrom"/> and moves the offset so that the buffer reads right.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number, or a temperature does not exist.</exception>
    public static PhLine OnePoint(PhPoint point, PhLine slopeFrom)
    {
        Check(point);
        var offset = point.ElectrodeMillivolts
            + slopeFrom.SlopeAt(point.TemperatureC) * (point.BufferPh - PhLine.IsopotentialPh);
        return new PhLine(slopeFrom.SlopeMillivoltsPerPh, offset, slopeFrom.TemperatureC);
    }

    /// <summary>Two buffers: the line through both.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// A value is not a number, a temperature does not exist, the buffers are nearer than <see cref="LeastSpanPh"/>, or the voltage
    /// does not fall as pH rises.
    /// </exception>
    public static PhLine TwoPoints(PhPoint first, PhPoint second) => LeastSquares([first, second]).Line;

    /// <summary>Two or more buffers: the least-squares line of voltage on pH, with what each buffer misses it by.</summary>
    /// <exception cref="ArgumentOutOfRangeException">As for <see cref="TwoPoints"/>, or fewer than two points.</exception>
    public static PhFitResult LeastSquares(IReadOnlyList<PhPoint> points)
    {
        if (points.Count < 2)
            throw Wanted.Refusal(points.Count, nameof(points), "two points or more");

        foreach (var point in points)
            Check(point);

        Wanted.AtLeast(
            points.Max(p => p.BufferPh) - points.Min(p => p.BufferPh), LeastSpanPh, "pH", "span of the buffers");

        var temperatureC = points.Average(p => p.TemperatureC);
        var reducedPh = points.Select(p => ReducedPh(p, temperatureC)).ToArray();
        var meanX = reducedPh.Average();
        var meanY = points.Average(p => p.ElectrodeMillivolts);
        var slope = -reducedPh.Zip(points, (x, p) => (x - meanX) * (p.ElectrodeMillivolts - meanY)).Sum()
            / reducedPh.Sum(x => (x - meanX) * (x - meanX));
        Wanted.Positive(slope, "mV", "fall of the voltage for one pH");

        var line = new PhLine(slope, meanY + slope * meanX, temperatureC);
        return new PhFitResult(
            line, [.. points.Select(p => p.ElectrodeMillivolts - line.MillivoltsAt(p.BufferPh, p.TemperatureC))]);
    }

    private static double ReducedPh(PhPoint point, double temperatureC)
        => (point.BufferPh - PhLine.IsopotentialPh) * Wanted.Kelvin(point.TemperatureC) / Wanted.Kelvin(temperatureC);

    private static void Check(PhPoint point)
    {
        Wanted.Finite(point.ElectrodeMillivolts, "mV", "electrode voltage");
        Wanted.Finite(point.BufferPh, "", "pH of the buffer");
        Wanted.TemperatureC(point.TemperatureC, "temperature of the buffer");
    }
}

/// <summary>A fitted line and how far each buffer lies from it. Immutable; safe on any thread.</summary>
/// <param name="Line">The least-squares line.</param>
/// <param name="ResidualsMillivolts">Measured minus line for each buffer, mV, in the order the points were given.</param>
public sealed record PhFitResult(PhLine Line, IReadOnlyList<double> ResidualsMillivolts);

/// <summary>One buffer as an electrode saw it while it was calibrated. Immutable; safe on any thread.</summary>
/// <param name="ElectrodeMillivolts">Settled electrode voltage, mV.</param>
/// <param name="BufferPh">The buffer's pH at the temperature it was measured at, not its label at 25 °C.</param>
/// <param name="TemperatureC">Temperature of the buffer, °C.</param>
public readonly record struct PhPoint(double ElectrodeMillivolts, double BufferPh, double TemperatureC);
