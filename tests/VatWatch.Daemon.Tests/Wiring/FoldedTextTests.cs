using CsCheck;
using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Tests.Wiring;

public sealed class FoldedTextTests
{
    [Theory]
    [InlineData("short", "short")]
    [InlineData("", "")]
    [InlineData("one two three four five six seven", "one two three|four five six|seven")]
    [InlineData("  indented words go on below", "  indented words|  go on below")]
    [InlineData("  - a list's words stand below", "  - a list's|    words stand|    below")]
    [InlineData("  --x   what it is for", "  --x   what it|        is for")]
    [InlineData("see http://127.0.0.1:8080/alarms there", "see|http://127.0.0.1:8080/alarms|there")]
    [InlineData("wordthatislongerthantheline", "wordthatislongerthantheline")]
    [InlineData("twelve chars and more", "twelve chars and|more")]
    public void Lines_are_broken_between_words_and_go_on_below_their_beginning(string line, string folded) =>
        Assert.Equal(folded, string.Join('|', FoldedText.Fold(line, 16)));

    [Fact]
    public void The_column_may_be_told() => Assert.Equal(["12:00:00 a b c d e", "         f g"], FoldedText.Fold("12:00:00 a b c d e f g", 19, 9));

    [Fact]
    public void No_word_is_lost_and_no_line_is_too_long_but_for_a_word_that_is()
    {
        Gen.Select(Gen.String[Gen.Char[" abc-"], 0, 120], Gen.Int[10, 60]).Sample((text, width) =>
        {
            var lines = FoldedText.Fold(text, width).ToList();
            string[] Words(string one) => one.Split(' ', StringSplitOptions.RemoveEmptyEntries);
            return Words(string.Join(' ', lines)).SequenceEqual(Words(text)) && lines.TrueForAll(line => line.Length <= width || Words(line).Length <= 1);
        });
    }
}
