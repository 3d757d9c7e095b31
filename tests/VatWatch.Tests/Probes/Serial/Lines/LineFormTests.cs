using System.Text;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Serial.Lines;

/// <summary>What a line may look like, and that no line holds up the port.</summary>
public sealed class LineFormTests
{
    [Theory]
    [InlineData("(")]
    [InlineData("[z-a]")]
    public void What_is_no_expression_is_refused(string text) => Assert.Null(LineForm.TryRead(text));

    [Fact]
    public void One_that_is_too_long_is_refused()
    {
        Assert.NotNull(LineForm.TryRead(new string('a', 1000)));
        Assert.Null(LineForm.TryRead(new string('a', 1001)));
    }

    [Fact]
    public void Its_groups_are_known_before_any_line_came()
    {
        var form = LineForm.TryRead("^T=(?<value>[0-9.]+)C$")!;

        Assert.True(form.Has("value"));
        Assert.False(form.Has("status"));
        Assert.Equal("^T=(?<value>[0-9.]+)C$", form.ToString());
    }

    [Theory]
    [InlineData("^T=(?<value>[0-9.]+)C$", "T=45.2C", "45.2")]
    [InlineData(@"^(?<value>[0-9]+) \k<value>$", "45 45", "45")]
    public void A_line_that_has_it_gives_its_groups_also_where_only_backtracking_can_tell(string text, string line, string value) =>
        Assert.Equal(value, LineForm.TryRead(text)!.Match(Encoding.ASCII.GetBytes(line)).Groups["value"].Value);

    [Fact]
    public void Every_line_has_the_one_that_is_of_any_form() => Assert.Equal("x 1", LineForm.Any("value").Match("x 1"u8).Groups["value"].Value);

    [Fact]
    public void A_byte_that_is_not_ASCII_is_one_character_that_no_digit_matches()
    {
        Assert.True(LineForm.TryRead("^4.C$")!.Match([(byte)'4', 0xB0, (byte)'C']).Success);
        Assert.False(LineForm.TryRead(@"^4\dC$")!.Match([(byte)'4', 0xB9, (byte)'C']).Success);
    }

    [Fact]
    public void One_that_would_backtrack_without_end_is_given_up()
    {
        var form = LineForm.TryRead(@"^(?<value>(a+)+)\k<value>!$")!;

        Assert.False(form.Match(Encoding.ASCII.GetBytes(new string('a', 400))).Success);
    }
}
