using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Tests.Verbs.Terminal;

public sealed class ProgressLineTests
{
    [Fact]
    public void A_terminal_shows_how_far_it_is_and_is_clean_afterwards()
    {
        using var error = new StringWriter();
        using (var progress = new ProgressLine(new VerbConsole(TextWriter.Null, error) { IsTerminal = true }))
        {
            progress.Show("copying", 50, 200);
            progress.Show("copying", 51, 200);
        }

        Assert.Equal("\rcopying [======                  ] 25 %\r" + new string(' ', 39) + "\r", error.ToString());
    }

    [Fact]
    public void A_file_or_a_pipe_gets_nothing_of_it()
    {
        using var error = new StringWriter();
        using var progress = new ProgressLine(new VerbConsole(TextWriter.Null, error));
        progress.Show("copying", 1, 2);
        progress.Clear();
        Assert.Empty(error.ToString());
    }
}
