using System.Text;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Serial.Lines;

/// <summary>What a line is that had begun before its question was put.</summary>
public sealed class LineReplyTests
{
    [Theory]
    [InlineData("", "45.20", "45.20")]
    [InlineData("45.2", "0", "45.20")]
    [InlineData("-", "655.0", "-655.0")]
    [InlineData("> ", "45.20", "45.20")]
    [InlineData("\u0001~", "45.20", "45.20")]
    [InlineData("v2.", "31", null)]
    [InlineData("ready ", "25.0 C", null)]
    [InlineData("meter2", "5.0", null)]
    public void It_is_taken_whole_or_after_a_prompt_and_its_end_is_no_answer(string begun, string rest, string? taken)
    {
        var reply = new LineReply(LineEnding.Any, line => line.All(each => char.IsAsciiDigit((char)each) || each is (byte)'.' or (byte)'-'));
        reply.Reset(Encoding.Latin1.GetBytes(begun));
        Assert.Null(reply.Instead);
        Assert.Equal(taken is not null, reply.Take(Encoding.ASCII.GetBytes(rest + "\r")));
        Assert.Equal(taken, reply.Line is { } line ? Encoding.ASCII.GetString(line) : null);
        Assert.Equal(taken is null, reply.Instead is not null);
    }

    [Theory]
    [InlineData("\u0000\u00FF45.2", "45.2")]
    [InlineData("\u0001\u00B4T=45.2", "T=45.2")]
    [InlineData("\u00B45.2", null)]
    [InlineData("\u00015.2", null)]
    public void What_a_line_driver_makes_before_a_line_is_no_part_of_it_but_a_disturbed_digit_is(string line, string? taken)
    {
        var reply = new LineReply(LineEnding.Any, each => each[0] == (byte)'T' || each.All(value => char.IsAsciiDigit((char)value) || value == (byte)'.'));
        Assert.Equal(taken is not null, reply.Take(Encoding.Latin1.GetBytes(line + "\r")));
        Assert.Equal(taken, reply.Line is { } own ? Encoding.ASCII.GetString(own) : null);
    }

    [Fact]
    public void Only_the_first_line_goes_on_from_what_had_begun()
    {
        var reply = new LineReply(LineEnding.Lf, line => line[0] == (byte)'T');
        reply.Reset("P"u8);
        Assert.True(reply.Take("H=9.8\nT=45\n"u8));
        Assert.Equal("T=45", Encoding.ASCII.GetString(reply.Line!));
        Assert.Equal("'PH=9.8'", reply.PassedOver);
    }
}
