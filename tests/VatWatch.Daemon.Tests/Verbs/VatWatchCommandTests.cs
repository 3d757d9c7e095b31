using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Tests.Verbs;

public sealed class VatWatchCommandTests
{
    [Fact]
    public async Task Each_verb_of_the_help_is_there_when_it_alone_is_made()
    {
        var verbs = (await Help()).Split("Commands:")[1].Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(line => line.StartsWith("  ", StringComparison.Ordinal) && line[2] != ' ').Select(line => line.Trim().Split(' ')[0]).ToList();
        Assert.Equal(19, verbs.Count);
        foreach (var verb in verbs)
        {
            Assert.Contains($"vatwatch {verb}", (await Help(verb)).Replace("VatWatch.Daemon.Tests", "vatwatch", StringComparison.Ordinal), StringComparison.Ordinal);
        }
    }

    private static async Task<string> Help(params string[] verb)
    {
        using var output = new StringWriter();
        Assert.Equal(0, await VatWatchCommand.RunAsync([.. verb, "--help"], new VerbConsole(output, TextWriter.Null)));
        return output.ToString();
    }
}
