using MathNet.Numerics.Integration;
using MathNet.Numerics.Interpolation;
using VatWatch.Charts.Figures;

namespace VatWatch.Charts.Tests.Figures;

/// <summary>Times and integrals against MathNet.Numerics on the straight lines between the readings of seeded random logs.</summary>
public class NumericsTests
{
    // Composite Simpson in panels so fine that the kinks at the level cost less than the tolerance.
    private const int Panels = 200_000;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    public void Degree_minutes_and_time_in_band_agree_with_numerical_integration(int seed)
    {
        var random = new Random(seed);
        var (minutes, values) = (new List<double> { 0 }, new List<double> { 45 });
        for (var i = 0; i < 120; i++)
        {
            minutes.Add(minutes[^1] + 0.5 + random.NextDouble());
            values.Add(Math.Clamp(values[^1] + 3 * (random.NextDouble() - 0.5), 30, 60));
        }

        var steps = GoodStep.Of(Logs.Trace(minutes.Zip(values, (minute, value) => (minute, (double?)value))));
        var line = LinearSpline.InterpolateSorted([.. minutes], [.. values]);
        double Integral(Func<double, double> of) => SimpsonRule.IntegrateComposite(time => of(line.Interpolate(time)), 0, minutes[^1], Panels);

        Assert.Equal(Integral(value => Math.Max(0, value - 46)), TimeAbove.Of(steps, 46).ValueMinutes, 2e-3);
        Assert.Equal(Integral(value => value >= 46 ? 1 : 0), TimeAbove.Of(steps, 46).Time.TotalMinutes, 0.02);
        var band = TimeInBand.Of(steps, 44, 47);
        Assert.Equal(Integral(value => value is >= 44 and <= 47 ? 1 : 0), band.Inside.TotalMinutes, 0.02);
        Assert.Equal(minutes[^1], band.Known.TotalMinutes, 1e-5);
    }

    [Fact]
    public void Drift_agrees_with_a_fitted_line()
    {
        var random = new Random(6);
        (double Minute, double? Value)[] readings = [.. Enumerable.Range(0, 200).Select(minute => ((double)minute, (double?)(10 - 0.001 * minute + 0.05 * random.NextDouble())))];
        var (_, slope) = MathNet.Numerics.Fit.Line([.. readings.Select(one => one.Minute / 60)], [.. readings.Select(one => one.Value!.Value)]);
        Assert.Equal(slope, Drift.PerHour(Logs.Trace(readings))!.Value, 1e-9);
    }
}
