namespace VatWatch.Science.Electrodes.Ph;

/// <summary>
/// A calibration made of straight pieces between neighbouring buffers; a sample is read on the piece that brackets it, so a vat at
/// pH 11 is judged by 10 and 12.45 and not by 4. Away from the calibration temperature neighbouring pieces may miss each other at
/// their common buffer by a few thousandths of pH. Immutable; safe on any thread.
/// </summary>
public sealed class PhSegments
{
    private readonly double lowestPh;
    private readonly double highestPh;
    private readonly double[] upperPh;

    private PhSegments(PhPoint[] sorted)
    {
        lowestPh = sorted[0].BufferPh;
        highestPh = sorted[^1].BufferPh;
        upperPh = [.. sorted.Skip(1).Select(p => p.BufferPh)];
        Lines = [.. sorted.Zip(sorted.Skip(1), PhFit.TwoPoints)];
    }

    /// <summary>The pieces, from the lowest pair of buffers to the highest.</summary>
    public IReadOnlyList<PhLine> Lines { get; }

    /// <summary>Makes the pieces from two or more buffers in any order.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than two points, or a neighbouring pair gives no line (see <see cref="PhFit.TwoPoints"/>).</exception>
    public static PhSegments Through(IReadOnlyList<PhPoint> points)
    {
        return points.Count >= 2
            ? new PhSegments([.. points.OrderBy(p => p.BufferPh)])
            : throw Wanted.Refusal(points.Count, nameof(points), "two points or more");
    }

    /// <summary>pH of a liquor at its own temperature; flagged when it lies outside the outermost buffers.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is not a number, or a temperature does not exist.</exception>
    public Estimate PhAt(double electrodeMillivolts, double liquorTemperatureC)
    {
        var ph = Lines[0].PhAt(electrodeMillivolts, liquorTemperatureC);
        for (var i = 1; i < Lines.Count && ph > upperPh[i - 1]; i++)
            ph = Lines[i].PhAt(electrodeMillivolts, liquorTemperatureC);

        return Estimate.InRange(ph, ph, lowestPh, highestPh);
    }
}
