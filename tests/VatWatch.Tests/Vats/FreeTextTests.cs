namespace VatWatch.Tests.Vats;

public sealed class FreeTextTests
{
    [Theory]
    [InlineData("not you", "not you")]
    [InlineData("a line\r\nand another.", "a line and another")]
    [InlineData("\u001b[31mred\u0007", "[31mred")]
    [InlineData("left\u202etfel\u2066\u200b", "lefttfel")]
    [InlineData(null, "")]
    public void What_a_server_said_is_quoted_on_one_line_that_steers_nothing(string? said, string quoted) => Assert.Equal(quoted, FreeText.Quoted(said));

    [Fact]
    public void What_is_long_is_cut_and_never_through_a_character()
    {
        Assert.Equal(new string('x', 200) + "...", FreeText.Quoted(new string('x', 5000)));
        var cut = FreeText.Quoted(new string('x', 199) + "\U0001F525 and on");
        Assert.Equal(new string('x', 199) + "...", cut);
    }
}
