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
