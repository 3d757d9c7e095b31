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
