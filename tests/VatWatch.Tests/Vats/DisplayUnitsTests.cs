namespace VatWatch.Tests.Vats;

public sealed class DisplayUnitsTests
{
    // 1 lb is 453.59237 g exactly.
    [Theory]
    [InlineData(true, 907.18474, "2.00 lb")]
    [InlineData(true, 453.59237, "1.00 lb")]
    [InlineData(true, 425.24284, "15.00 oz")]
    [InlineData(false, 907.18474, "907 g")]
    [InlineData(false, 1250, "1.25 kg")]
    public void Goods_are_weighed_in_the_larger_unit_from_one_of_it_on(bool us, double grams, string words) => Assert.Equal(words, new DisplayUnits(us).Goods(grams));
}
