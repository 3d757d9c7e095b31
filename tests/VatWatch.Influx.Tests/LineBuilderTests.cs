namespace VatWatch.Influx.Tests;

public sealed class LineBuilderTests
{
    private readonly LineBuilder _line = new();

    [Fact]
    public void Every_kind_of_field_is_written_as_the_protocol_has_it() => Assert.Equal(
        "m,site=a v=-0.5,big=1E+300,n=7i,t=true,f=false,s=\"x\" 12",
        _line.Begin("m").Tag("site", "a").Number("v", -0.5).Number("big", 1e300).Whole("n", 7).Flag("t", true).Flag("f", false).Text("s", "x").End(12));

    [Theory]
    [InlineData("too cold", @"too\ cold")]
    [InlineData("a,b=c", @"a\,b\=c")]
    [InlineData("on/off", "on/off")]
    [InlineData("°C", "°C")]
    [InlineData("line\nbreak\\", "line_break_")]
    public void Separators_in_a_tag_are_escaped(string value, string written) =>
        Assert.Equal($"m,tag={written} f=1i 0", _line.Begin("m").Tag("tag", value).Whole("f", 1).End(0));

    [Theory]
    [InlineData("say \"no\"", "say \\\"no\\\"")]
    [InlineData(@"C:\vat", @"C:\\vat")]
    [InlineData("two\r\nlines", "two  lines")]
    public void Words_are_escaped_and_stay_on_one_line(string value, string written) =>
        Assert.Equal($"m f=\"{written}\" 0", _line.Begin("m").Text("f", value).End(0));

    [Theory]
    [InlineData(double.NaN, "vText=\"NaN\"")]
    [InlineData(double.PositiveInfinity, "vText=\"Infinity\"")]
    [InlineData(double.NegativeInfinity, "vText=\"-Infinity\"")]
    public void A_number_that_the_protocol_does_not_have_is_kept_as_words(double value, string written) =>
        Assert.Equal($"m {written} 0", _line.Begin("m").Number("v", value).End(0));

    [Fact]
    public void What_there_is_not_is_left_out() =>
        Assert.Equal("m f=1i 0", _line.Begin("m").Tag("t", "").Number("a", null).Whole("b", null).Text("c", null).Whole("f", 1).End(0));

    [Fact]
    public void Every_number_comes_back_the_same()
    {
        var random = new Random(42);
        for (var round = 0; round < 1000; round++)
        {
            var number = BitConverter.Int64BitsToDouble(random.NextInt64());
            if (double.IsFinite(number))
            {
                var text = _line.Begin("m").Number("v", number).End(0)[4..^2];
                Assert.Equal(number, double.Parse(text, System.Globalization.CultureInfo.InvariantCulture));
            }
        }
    }
}
