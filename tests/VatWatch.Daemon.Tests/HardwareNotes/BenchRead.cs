using System.Text.Json;
using VatWatch.Daemon.Verbs;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.HardwareNotes;

/// <summary>`vatwatch read --json` with the configuration of a family, of which some texts are replaced: ports and folders of the test's machine.</summary>
internal static class BenchRead
{
    /// <summary>The rows by probe. Fails the test when a text to replace is not there, or the verb does not end well.</summary>
    public static async Task<IReadOnlyDictionary<string, JsonElement>> TakeAsync(string family, params (string Written, string Here)[] replaced)
    {
        var stop = TestContext.Current.CancellationToken;
        var text = await File.ReadAllTextAsync(SourceTree.At("hardware-notes", family, "config.json"), stop);
        foreach (var (written, here) in replaced)
        {
            Assert.Contains(written, text, StringComparison.Ordinal);
            text = text.Replace(written, here, StringComparison.Ordinal);
        }

        var config = Path.Combine(Path.GetTempPath(), $"vatwatch-notes-{Guid.NewGuid():N}.json");
        try
        {
            await File.WriteAllTextAsync(config, text, stop);
            using var output = new StringWriter();
            using var error = new StringWriter();
            var code = await VatWatchCommand.RunAsync(["read", "--json", "--config", config], new VerbConsole(output, error));
            Assert.Equal((0, ""), (code, error.ToString()));
            using var json = JsonDocument.Parse(output.ToString());
            return json.RootElement.EnumerateArray().ToDictionary(row => row.GetProperty("probe").GetString()!, row => row.Clone());
        }
        finally
        {
            File.Delete(config);
        }
    }
}
