using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Serial.Lines;

public sealed class AskedFormsTests
{
    [Theory]
    [InlineData("(?<value>[-+0-9.]+)", "(?<value>[-+0-9.]+)", "45.20")]
    [InlineData("^(?<value>.*)$", @"^PH=(?<value>[0-9.]+)$", "PH=10.00")]
    [InlineData(@"^T=(?<value>[-+0-9.]+)C$", "(?<value>[0-9.]+)", "T=10.00C")]
    [InlineData(@"^T=(?<value>[-+0-9.]+)C$", @"^PH=(?<value>[0-9.]+)$", null)]
    [InlineData(@"^\*T (?<value>[-+0-9.]+)", @"^\*PH (?<value>[0-9.]+)", null)]
    [InlineData(@"^(?<value>[-+0-9.]+) C$", @"^(?<value>[-+0-9.]+) mV$", null)]
    public void A_line_that_either_pattern_takes_is_found(string one, string other, string? line) =>
        Assert.Equal(line, Form("T?", one).AlsoTakenBy(Form("PH?", other)));

    [Fact]
    public void Who_asks_the_same_gets_the_same() => Assert.Null(Form("ALL?", "(?<value>.*)").AlsoTakenBy(Form("ALL?", "(?<value>.*)")));

    [Theory]
    [InlineData(@"^T=(?<value>[-+0-9.]+)C$", @"^PH=(?<value>[0-9.]+)$", true)]
    [InlineData(@"^T=(?<value>[-+0-9.]+)C$", "(?<value>[0-9.]+)", false)]
    [InlineData(@"^T=(?<value>[-+0-9.]+)C$", @"^(T|PH)=(?<value>[0-9.]+)$", false)]
    public void Answers_are_distinct_only_where_that_is_sure(string one, string other, bool areDistinct)
    {
        var forms = new AskedForms();
        forms.Add(Form("T?", one));
        forms.Add(Form("PH?", other));
        Assert.Equal(areDistinct, forms.AreDistinct);
    }

    private static AskedForm Form(string question, string pattern) =>
        new(question, SerialBench.Pattern($$"""{ "pattern": {{System.Text.Json.JsonSerializer.Serialize(pattern)}}, "unit": "°C" }"""));
}
