using VatWatch.Daemon.Tests.Wiring;
using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Testing.Fuzz;

namespace VatWatch.Daemon.Tests.Fuzz;

/// <summary>Every mistake that people make, one at a time: the check ends with 78 and one sentence for each fault, and tells no secret.</summary>
public sealed class WrongConfigurationTests : IDisposable
{
    private const int Wanted = 200;
    private readonly string _file = Path.GetTempFileName();

    public void Dispose() => File.Delete(_file);

    [Theory]
    [InlineData("config/vatwatch.json")]
    [InlineData("tests/VatWatch.Daemon.Tests/Wiring/every-key.json")]
    public async Task Each_of_hundreds_of_mistakes_is_told_in_one_sentence_with_its_place_what_was_seen_and_what_is_wanted(string sample)
    {
        using var samples = new SampleConfigurations();
        var mistakes = WrongConfigurations.Of(samples.Open(sample)).ToList();
        Assert.True(mistakes.Count >= Wanted / 2, $"{mistakes.Count} mistakes");

        foreach (var mistake in mistakes)
        {
            await File.WriteAllTextAsync(_file, mistake.Root.ToJsonString(), TestContext.Current.CancellationToken);
            using var output = new StringWriter();
            using var errors = new StringWriter();
            var code = await VatWatchCommand.RunAsync(["check", "--config", _file], new VerbConsole(output, errors, null));
            Assert.True(code == ExitCode.BadConfiguration, $"{mistake.Place} {mistake.Mistake}: exit code {code}");
            foreach (var line in errors.ToString().Split('\n', StringSplitOptions.RemoveEmptyEntries))
            {
                Assert.Matches($"^{System.Text.RegularExpressions.Regex.Escape(_file)}: [^ ].{{0,300}} is .{{1,300}}; wanted .{{1,3000}}\\.$", line);
                Assert.DoesNotContain("not-a-real", line, StringComparison.Ordinal);
                Assert.DoesNotContain("Exception", line, StringComparison.Ordinal);
            }

            Assert.Contains(mistake.Place.Split('.', '[')[0], errors.ToString(), StringComparison.Ordinal);
        }
    }
}
