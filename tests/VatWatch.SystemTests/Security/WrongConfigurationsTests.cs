using System.Text.Json;
using System.Text.Json.Nodes;
using VatWatch.Testing;
using VatWatch.Testing.Fuzz;

namespace VatWatch.SystemTests.Security;

/// <summary>The built binary started with a configuration that has one mistake in it.</summary>
public sealed class WrongConfigurationsTests
{
    private const int Tried = 12;
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    [Fact]
    public async Task A_dozen_mistakes_end_the_start_with_78_and_a_line_for_each_fault()
    {
        using var studio = new Studio();
        var sound = JsonNode.Parse(await File.ReadAllTextAsync(SourceTree.At("config", "vatwatch.json"), TestContext.Current.CancellationToken), documentOptions: Lenient)!.AsObject();
        var mistakes = WrongConfigurations.Of(sound).ToList();
        foreach (var mistake in Enumerable.Range(0, Tried).Select(n => mistakes[n * mistakes.Count / Tried]))
        {
            await File.WriteAllTextAsync(studio.Config, mistake.Root.ToJsonString(), TestContext.Current.CancellationToken);
            var (code, output, errors) = await VatWatchProcess.RunAsync(TimeSpan.FromSeconds(60), "run", "--config", studio.Config, "--data", studio.Data);
            Assert.True(code == 78, $"{mistake.Place} {mistake.Mistake}: exit code {code}\n{errors}");
            Assert.Equal("", output);
            Assert.All(errors.Split('\n'), line => Assert.Matches("^.+: .+ is .+; wanted .+\\.$", line));
            Assert.False(Directory.Exists(studio.Data));
        }
    }
}
