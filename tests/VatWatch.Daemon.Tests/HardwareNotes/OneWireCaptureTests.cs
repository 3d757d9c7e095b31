using System.Text.Json;
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
        var rows = await BenchRead.TakeAsync(
            "onewire",
            ("\"kind\": \"onewire\"", $"\"kind\": \"onewire\", \"root\": \"{SourceTree.At("hardware-notes", "onewire", "captures")}\""),
            ("28-000000000a01", device));
        var row = rows["liquor"];
        Assert.Equal(celsius, row.GetProperty("raw").ValueKind == JsonValueKind.Null ? null : row.GetProperty("raw").GetDouble());
        Assert.Equal(quality, row.GetProperty("quality").GetString());
        Assert.Contains(reason ?? "", row.GetProperty("reason").GetString() ?? "", StringComparison.Ordinal);
    }
}
