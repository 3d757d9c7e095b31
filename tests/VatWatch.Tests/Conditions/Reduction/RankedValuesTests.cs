using VatWatch.Conditions.Reduction;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class RankedValuesTests
{
    [Fact]
    public void Every_rank_is_what_sorting_gives_also_among_equal_values()
    {
        var random = new Random(5);
        for (var round = 0; round < 400; round++)
        {
            var values = Enumerable.Range(0, random.Next(1, 300)).Select(_ => round % 2 == 0 ? random.NextDouble() : random.Next(4)).ToArray();
            var rank = random.Next(values.Length);
            Assert.Equal(values.Order().ElementAt(rank), RankedValues.At([.. values], rank));
        }
    }

    [Theory]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(double.NaN)]
    public void What_is_no_number_holds_nobody_up(double value) => Assert.Equal(value, RankedValues.At([value, value, value, value], 2));
}
