namespace VatWatch.Tests.Vats;

public sealed class DocumentNumberTests
{
    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void What_json_has_no_word_for_is_null(double value)
    {
        Assert.Null(((double?)value).Finite());
        Assert.Null(value.Rounded());
    }

    [Fact]
    public void Noise_behind_what_was_measured_is_cut_off()
    {
        Assert.Equal(0.3, (0.1 + 0.2).Rounded());
        Assert.Equal(43.2, 43.2461.Rounded(1));
        Assert.Equal(0.1 + 0.2, ((double?)(0.1 + 0.2)).Finite());
    }
}
