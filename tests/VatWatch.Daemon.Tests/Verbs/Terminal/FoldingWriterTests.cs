using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Tests.Verbs.Terminal;

public sealed class FoldingWriterTests : IDisposable
{
    private readonly StringWriter _inner = new() { NewLine = "\n" };

    public void Dispose() => _inner.Dispose();

    [Fact]
    public void Whole_lines_are_folded_and_a_question_is_not()
    {
        using var writer = new FoldingWriter(_inner, 20);
        writer.WriteLine("A sentence that is longer than that.");
        writer.Write("And how many vats are there to be? ");
        writer.WriteLine("one two three four five six");
        writer.WriteLine();
        writer.WriteLine("two lines\nin one");
        Assert.Equal("A sentence that is\nlonger than that.\nAnd how many vats are there to be? one two three four five six\n\ntwo lines\nin one\n", _inner.ToString());
    }

    [Fact]
    public async Task Verbs_keep_to_the_width_of_the_console_but_not_in_what_programs_read()
    {
        string[] words = ["dose", "alkali", "--volume", "40 gal", "--temperature", "113 °F", "--ph", "9.0", "--target", "10.0"];
        var console = new VerbConsole(_inner, TextWriter.Null) { Width = 60 };
        Assert.Equal(0, await VatWatchCommand.RunAsync(words, console));
        Assert.Equal(0, await VatWatchCommand.RunAsync(["report", "--help"], console));
        Assert.All(_inner.ToString().Split('\n'), line => Assert.InRange(line.TrimEnd().Length, 0, 60));
        _inner.GetStringBuilder().Clear();
        Assert.Equal(0, await VatWatchCommand.RunAsync([.. words, "--json"], console));
        Assert.Contains(_inner.ToString().Split('\n'), line => line.Length > 100);
    }
}
