using VatWatch.Store.Series;

namespace VatWatch.Tests.Store.Series;

public sealed class RollupSumTests
{
    private static readonly DateTimeOffset Start = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(17)]
    [InlineData(40)]
    public void Parts_amount_to_what_their_readings_amount_to(int split)
    {
        var random = new Random(5);
        double?[] values = [.. Enumerable.Range(0, 40).Select(n => n % 7 == 0 ? null : n == 11 ? double.NaN : (double?)(random.Next(1000) / 4.0 - 100))];
        var (early, late) = (Sum(values[..split]), Sum(values[split..]));

        early.Add(late);

        double[] numbers = [.. values.OfType<double>().Where(double.IsFinite)];
        Assert.Equal(new(Start, numbers.Length, Quality.Good, numbers[0], numbers[^1], numbers.Min(), numbers.Max(), numbers.Sum()), early.At(Start));
    }

    [Fact]
    public void A_reading_without_a_value_shows_in_the_quality_alone()
    {
        var sum = RollupSum.Of(-3, Quality.Suspect);
        sum.Add(RollupSum.Of(null, Quality.Missing));
        sum.Add(RollupSum.Of(-4, Quality.Good));
        Assert.Equal(new(Start, 2, Quality.Missing, -3, -4, -4, -3, -7), sum.At(Start));
    }

    [Fact]
    public void Nothing_has_no_numbers() => Assert.Equal(new(Start, 0, Quality.Fault, null, null, null, null, 0), RollupSum.Of(null, Quality.Fault).At(Start));

    private static RollupSum Sum(IEnumerable<double?> values)
    {
        var sum = new RollupSum();
        foreach (var value in values)
        {
            sum.Add(RollupSum.Of(value, Quality.Good));
        }

        return sum;
    }
}
