using System.Text;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Tests.Probes.Serial.Lines;

public sealed class LineSplitterTests
{
    [Theory]
    [InlineData(LineEnding.Lf, "a\nb\r\n\n\r\nc", "a|b")]
    [InlineData(LineEnding.Lf, "a\rb\n", "a\rb")]
    [InlineData(LineEnding.Cr, "a\rb\r\nc\r\r\n\rd", "a|b|c")]
    [InlineData(LineEnding.CrLf, "a\r\nb\nc\rd\r\n\r\n", "a|b\nc\rd")]
    [InlineData(LineEnding.CrLf, "\na\r\n", "\na")]
    public void Lines_are_cut_at_their_ending_however_the_bytes_arrive(LineEnding ending, string text, string lines)
    {
        foreach (var size in new[] { 1, 2, 3, text.Length })
        {
            var seen = new List<string>();
            var splitter = new LineSplitter(ending, dropFirst: false);
            foreach (var part in Encoding.ASCII.GetBytes(text).Chunk(size))
            {
                splitter.Take(part, line => seen.Add(Encoding.ASCII.GetString(line)));
            }

            Assert.Equal(lines, string.Join('|', seen));
        }
    }

    [Fact]
    public void A_line_over_the_cap_is_dropped_whole_and_the_next_one_kept()
    {
        var seen = new List<int>();
        var splitter = new LineSplitter(LineEnding.Lf, dropFirst: false);
        foreach (var length in new[] { LineSplitter.Cap, LineSplitter.Cap + 1, 10_000, 5 })
        {
            splitter.Take(Encoding.ASCII.GetBytes(new string('7', length) + "\n"), line => seen.Add(line.Length));
        }

        Assert.Equal([LineSplitter.Cap, 5], seen);
        Assert.Equal(2, splitter.TooLong);
    }
}
