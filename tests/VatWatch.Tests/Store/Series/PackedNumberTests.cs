using VatWatch.Store.Series;


namespace VatWatch.Tests.Store.Series;

public sealed class PackedNumberTests
{
    [Theory]
    [InlineData(43.62, (4362L << 2) + 2)]
    [InlineData(-623.4, (-6234L << 2) + 1)]
    [InlineData(43.0625, (430625L << 2) + 3)]
    [InlineData(1, 1L << 2)]
    [InlineData(0, 0L)]
    public void Decimals_are_whole_numbers_with_their_form(double value, long packed) => Assert.Equal(packed, PackedNumber.Pack(value));

    [Theory]
    [InlineData(0.1 + 0.2)]
    [InlineData(-0.0)]
    [InlineData(1e16)]
    [InlineData(double.MaxValue)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_no_short_decimal_stays_a_double(double value) => Assert.Equal(value, Assert.IsType<double>(PackedNumber.Pack(value)));

    [Fact]
    public void NaN_is_kept_as_its_bits_and_nothing_as_nothing()
    {
        Assert.Equal(8, Assert.IsType<byte[]>(PackedNumber.Pack(double.NaN)).Length);
        Assert.Null(PackedNumber.Pack(null));
    }
}
