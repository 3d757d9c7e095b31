using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Calibration;

/// <summary>A pH electrode in one, two or three buffers.</summary>
public sealed record PhCalibration : ElectrodeCalibration
{
    /// <summary>More buffers than this are no calibration of a dye house; the surplus would hide a bad one.</summary>
    public const int MostPoints = 3;

    private readonly PhSegments? _pieces;

    /// <summary>Takes up a calibration as it was kept. New ones come from <see cref="Through"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The points give no pieces though pieces are asked for.</exception>
    internal PhCalibration(PhFitKind fit, PhLine line, IReadOnlyList<PhCalibrationPoint> points)
    {
        Fit = fit;
        Line = line;
        Points = points;
        _pieces = fit == PhFitKind.Pieces ? PhSegments.Through([.. points.Select(one => one.Point)]) : null;
    }

    /// <summary>How the buffers are used.</summary>
    public PhFitKind Fit { get; }

    /// <summary>The one line for all buffers; with pieces it only tells slope and offset as a whole.</summary>
    public PhLine Line { get; }

    /// <summary>The buffers, in the order they were used.</summary>
    public IReadOnlyList<PhCalibrationPoint> Points { get; }

    /// <summary>The lines that turn voltage into pH: the pieces from low to high pH, or the one line.</summary>
    public IReadOnlyList<PhLine> Lines => _pieces?.Lines ?? [Line];

    /// <summary>Measured minus <see cref="Line"/> in each buffer, mV; nought for one or two.</summary>
    public IReadOnlyList<double> ResidualsMillivolts =>
        [.. Points.Select(one => one.Point.ElectrodeMillivolts - Line.MillivoltsAt(one.Point.BufferPh, one.Point.TemperatureC))];

    public override Quantity Quantity => Quantity.Ph;

    public override double TemperatureC => Line.TemperatureC;

    public override TimeSpan? Settling => Points.Max(one => one.Settling);

    /// <summary>Works out a calibration.</summary>
    /// <param name="points">One to three buffers.</param>
    /// <param name="fit">Pieces need two buffers or more.</param>
    /// <param name="before">The calibration in use, whose slope a single buffer keeps; without one the slope is an ideal electrode's.</param>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The number of points, buffers nearer than <see cref="PhFit.LeastSpanPh"/>, or a voltage that does not fall as pH rises; a sentence.
    /// </exception>
    public static PhCalibration Through(IReadOnlyList<PhCalibrationPoint> points, PhFitKind fit, PhCalibration? before)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points.Count, MostPoints, nameof(points));
        var plain = points.Select(one => one.Point).ToList();
        var line = plain is [var single]
            ? PhFit.OnePoint(single, before?.Line ?? PhLine.Ideal(single.TemperatureC))
            : PhFit.LeastSquares(plain).Line;
        return new PhCalibration(fit, line, [.. points]);
    }

    public override double ValueAt(double electrodeMillivolts, double liquorTemperatureC) =>
        _pieces?.PhAt(electrodeMillivolts, liquorTemperatureC).Value ?? Line.PhAt(electrodeMillivolts, liquorTemperatureC);
}

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

/// <summary>How several buffers are turned into pH.</summary>
public enum PhFitKind
{
    /// <summary>One line for all: through one or two buffers, the least squares of three.</summary>
    Line,

    /// <summary>A straight piece between each two neighbouring buffers; the pair that brackets the liquor counts.</summary>
    Pieces,
}
