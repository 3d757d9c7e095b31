using VatWatch.Plans.Day;

namespace VatWatch.Tests.Plans.Day;

public sealed class GoodsTests
{
    [Theory]
    [InlineData("2 lb wool x 4 dips", 907.18474, "wool", 4)]
    [InlineData("500 g cotton x 6 dips", 500, "cotton", 6)]
    [InlineData("1.5kg silk scarves × 1 dip", 1500, "silk scarves", 1)]
    [InlineData(" 12 oz linen x12 dips ", 340.1942775, "linen", 12)]
    [InlineData("6 lb cotton x 3", 2721.55422, "cotton", 3)]
    public void Goods_are_read_as_people_write_them(string text, double grams, string kind, int dips)
    {
        Assert.True(Goods.TryParse(text, out var goods));
        Assert.Equal(grams, goods.Grams, 1e-6);
        Assert.Equal((kind, dips), (goods.Kind, goods.Dips));
    }

    [Theory]
    [InlineData("")]
    [InlineData("wool x 4 dips")]
    [InlineData("2 wool x 4 dips")]
    [InlineData("2 lb x 4 dips")]
    [InlineData("2 lb wool")]
    [InlineData("2 lb wool x 0 dips")]
    [InlineData("2 lb wool x 31 dips")]
    [InlineData("0 g wool x 3 dips")]
    [InlineData("-1 kg wool x 3 dips")]
    [InlineData("2 L wool x 3 dips")]
    [InlineData("200 kg wool x 3 dips")]
    public void What_cannot_be_meant_is_not_goods(string text) => Assert.False(Goods.TryParse(text, out _));

    [Fact]
    public void Goods_are_written_in_the_dyers_units() => Assert.Equal("2.00 lb wool x 4 dips", new Goods(907.18474, "wool", 4).Text(DisplayUnits.Us));
}
