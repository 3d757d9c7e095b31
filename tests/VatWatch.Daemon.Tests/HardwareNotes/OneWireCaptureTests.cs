using System.Text.Json;
using VatWatch.Daemon.Verbs;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.HardwareNotes;

/// <summary>`vatwatch read` over the captures of hardware-notes/onewire, which lie as the kernel shows them.</summary>
public sealed class OneWireCaptureTests
{
    // Temperatures: sixteenths of a degree in the first two bytes, by the maker's data sheet. Suspicious values: documentation of the kernel's w1_therm driver.
    [Theory]
    [InlineData("28-000000000a01", 48.25, "good", null)]
    [InlineData("28-000000000a02", 50.0, "good", null)]
    [InlineData("28-000000000a03", 23.9375, "good", null)]
    [InlineData("28-000000000b01", -10.125, "good", null)]
    [InlineData("28-000000000f01", null, "fault", "as it does after power-up")]
    [InlineData("28-000000000f02", null, "fault", "sent only zeros")]
    [InlineData("28-000000000f03", null, "fault", "wrong checksum")]
    [InlineData("28-000000000f04", null, "missing", "gave nothing")]
    [InlineData("28-000000000eee", null, "missing", "not among the 1-wire devices")]
    public async Task A_capture_reads_as_its_page_says(string device, double? celsius, string quality, string? reason)
    {
        var row = await ReadAsync(device);
        Assert.Equal(celsius, row.GetProperty("raw").ValueKind == JsonValueKind.Null ? null : row.GetProperty("raw").GetDouble());
        Assert.Equal(quality, row.GetProperty("quality").GetString());
        Assert.Contains(reason ?? "", row.GetProperty("reason").GetString() ?? "", StringComparison.Ordinal);
    }

    private static async Task<JsonElement> ReadAsync(string device)
    {
        var written = await File.ReadAllTextAsync(SourceTree.At("hardware-notes", "onewire", "config.json"), TestContext.Current.CancellationToken);
        var config = Path.Combine(Path.GetTempPath(), $"vatwatch-notes-{Guid.NewGuid():N}.json");
        try
        {
            var root = SourceTree.At("hardware-notes", "onewire", "captures");
            var here = written.Replace("\"kind\": \"onewire\"", $"\"kind\": \"onewire\", \"root\": \"{root}\"", StringComparison.Ordinal)
                .Replace("28-000000000a01", device, StringComparison.Ordinal);
            await File.WriteAllTextAsync(config, here, TestContext.Current.CancellationToken);
            using var output = new StringWriter();
            using var error = new StringWriter();
            Assert.Equal((0, ""), (await VatWatchCommand.RunAsync(["read", "--json", "--config", config], new VerbConsole(output, error)), error.ToString()));
            using var json = JsonDocument.Parse(output.ToString());
            return json.RootElement.EnumerateArray().Single(row => row.GetProperty("probe").GetString() == "liquor").Clone();
        }
        finally
        {
            File.Delete(config);
        }
    }
}
