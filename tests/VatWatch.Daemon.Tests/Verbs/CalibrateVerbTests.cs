using System.Text.Json;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Calibration;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Verbs;

/// <summary>Figures: worked examples of the pH and ORP equations; buffers of a maker's table of 2005 and of NIST-IUPAC; ZoBell by Standard Methods 2580 B.</summary>
public sealed class CalibrateVerbTests : IDisposable
{
    private static readonly string[] Ph = ["calibrate", "ph", "--probe", "glass"];
    private static readonly string[] Orp = ["calibrate", "orp", "--probe", "platinum"];
    private readonly Bench _bench = new();

    [Fact]
    public async Task Two_buffers_print_slope_offset_and_verdict_and_are_stored()
    {
        var (code, output, error) = await _bench.RunAsync([.. Ph, "--point", "7.00: 5.0 mV @ 25 °C", "--point", "10.01: -170.0 mV @ 25 °C"]);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("Slope 98.28 % of the ideal at 25 °C", output, StringComparison.Ordinal);
        Assert.Contains("Offset 5.0 mV at pH 7", output, StringComparison.Ordinal);
        Assert.Contains("Verdict: good. Stored as calibration 1;", output, StringComparison.Ordinal);

        var stored = Assert.Single(Kept());
        Assert.Equal("glass", stored.Probe.Value);
        Assert.InRange(stored.Utc, DateTimeOffset.UtcNow.AddMinutes(-5), DateTimeOffset.UtcNow);
        Assert.True(CalibrationDocument.TryRead(stored.Json, out var read, out _));
        Assert.Equal(10.3326, read.ValueAt(-205, 50), 4);
    }

    [Fact]
    public async Task Three_buffers_print_their_residuals_for_programs()
    {
        var (code, output, _) = await _bench.RunAsync(
            [.. Ph, "--set", "bottle", "--point", "4.01: 178 mV @ 25 °C", "--point", "7.00: 5 mV @ 25 °C", "--point", "10.01: -170 mV @ 25 °C", "--json"]);
        var json = JsonDocument.Parse(output).RootElement;
        Assert.Equal(0, code);
        Assert.Equal(98.04, json.GetProperty("slopePercent").GetDouble(), 2);
        Assert.Equal(4.72, json.GetProperty("offsetMillivolts").GetDouble(), 2);
        Assert.Equal([-0.14, 0.28, -0.14], json.GetProperty("points").EnumerateArray().Select(one => Math.Round(one.GetProperty("residualMillivolts").GetDouble(), 2)));
        Assert.Equal(("good", true, 1), (json.GetProperty("verdict").GetString(), json.GetProperty("stored").GetBoolean(), json.GetProperty("calibration").GetInt32()));
    }

    [Fact]
    public async Task A_primary_buffer_counts_with_its_pH_at_the_stated_temperature()
    {
        var (code, output, _) = await _bench.RunAsync([.. Ph, "--set", "primary", "--point", "6.865: -2.0 mV @ 122 °F", "--point", "10.012: -181.0 mV @ 50 °C", "--json"]);
        var json = JsonDocument.Parse(output).RootElement;
        Assert.Equal(0, code);
        Assert.Equal([6.833, 9.828], json.GetProperty("points").EnumerateArray().Select(one => one.GetProperty("ph").GetDouble()));
        Assert.Equal(93.21, json.GetProperty("slopePercent").GetDouble(), 2);
        Assert.Equal("worn", json.GetProperty("verdict").GetString());
    }

    [Fact]
    public async Task Buffers_are_recognised_by_their_voltage()
    {
        var (code, output, _) = await _bench.RunAsync([.. Ph, "--point", "5.0 mV @ 25 °C", "--point", "-170.0 mV @ 25 °C"]);
        Assert.Equal(0, code);
        Assert.Contains("technical 7.00: pH 7.00", output, StringComparison.Ordinal);
        Assert.Contains("technical 10.01: pH 10.01", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pieces_are_told_one_by_one()
    {
        var (_, output, _) = await _bench.RunAsync(
            [.. Ph, "--pieces", "--set", "bottle", "--point", "4.01: 178 mV @ 25 °C", "--point", "7.00: 5 mV @ 25 °C", "--point", "10.01: -170 mV @ 25 °C", "--json"]);
        Assert.Equal([97.80, 98.28], JsonDocument.Parse(output).RootElement.GetProperty("piecesSlopePercent").EnumerateArray().Select(one => Math.Round(one.GetDouble(), 2)));
    }

    [Fact]
    public async Task One_outside_the_limits_is_refused_unless_told_to_keep_it()
    {
        string[] bad = [.. Ph, "--point", "7.00: 57.0 mV @ 25 °C", "--point", "10.01: -118.0 mV @ 25 °C"];
        var (code, output, error) = await _bench.RunAsync(bad);
        Assert.Equal(1, code);
        Assert.Contains("Verdict: unfit. Not stored.", output, StringComparison.Ordinal);
        Assert.Contains("outside its limits and was not stored: Offset 57.0 mV at pH 7; good is up to 20 mV either way, unfit beyond 55 mV.", error, StringComparison.Ordinal);
        Assert.Empty(Kept());

        (code, output, error) = await _bench.RunAsync([.. bad, "--keep"]);
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("Verdict: unfit. Stored as calibration 1", output, StringComparison.Ordinal);
        Assert.Single(Kept());
    }

    [Fact]
    public async Task One_buffer_keeps_the_slope_before_and_tells_the_drift()
    {
        await _bench.RunAsync([.. Ph, "--point", "7.00: 5.0 mV @ 25 °C", "--point", "10.01: -170.0 mV @ 25 °C"]);
        var (code, output, _) = await _bench.RunAsync([.. Ph, "--point", "10.01: -176.0 mV @ 25 °C"]);
        Assert.Equal(0, code);
        Assert.Contains("Slope 98.28 %", output, StringComparison.Ordinal);
        Assert.Contains("it had come to read pH 0.10 too high at pH 10", output, StringComparison.Ordinal);
        Assert.Equal(2, Kept().Count);
    }

    [Theory]
    [InlineData("zobell", "214 mV @ 25 °C", 7.0)]
    [InlineData("zobell", "219 mV @ 20 °C", 10.0)]
    [InlineData("light", "0.462 V @ 25 °C", 6.0)]
    public async Task An_ORP_probe_gets_its_offset(string solution, string reading, double offset)
    {
        // 428 - 207 = 221 mV and 439 - 210 = 229 mV for ZoBell, 675 - 207 = 468 mV for Light, against Ag/AgCl in 3 M KCl.
        var (code, output, _) = await _bench.RunAsync([.. Orp, "--solution", solution, "--reading", reading, "--json"]);
        Assert.Equal(0, code);
        Assert.Equal(offset, JsonDocument.Parse(output).RootElement.GetProperty("offsetMillivolts").GetDouble(), 3);
    }

    [Fact]
    public async Task It_works_while_the_daemon_holds_the_folder_and_writes()
    {
        using var stop = new CancellationTokenSource();
        await using (var daemon = WatchStore.Open(_bench.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance))
        {
            var writing = daemon.RunAsync(stop.Token);
            for (var second = 0; second < 50; second++)
            {
                daemon.Enqueue(new Measurement(new("weld-60"), new("glass"), Quantity.Ph, new Stamp(DateTimeOffset.UtcNow, TimeSpan.FromSeconds(second), true), -170, 10.0, Quality.Good, null, null));
                await daemon.FlushAsync(TestContext.Current.CancellationToken);
                if (second is 10 or 30)
                {
                    var (code, _, error) = await _bench.RunAsync([.. Orp, "--solution", "zobell", "--reading", "214 mV @ 25 °C"]);
                    Assert.Equal((0, ""), (code, error));
                }
            }

            await stop.CancelAsync();
            await writing;
            Assert.True(daemon.Health.Ok);
        }

        Assert.Equal(2, Kept().Count);
        using var reader = StoreReader.OpenFolder(_bench.Data);
        Assert.Equal(50, reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Count());
    }

    [Theory]
    [InlineData("--point is 'seven'; wanted such as '7.00: 5.0 mV @ 25 °C'.", "ph", "--probe", "glass", "--point", "seven")]
    [InlineData("--point is '7.00: 5 @ 25 °C'", "ph", "--probe", "glass", "--point", "7.00: 5 @ 25 °C")]
    [InlineData("the technical set has 4.00, 7.00, 10.01; wanted one of these, or --set bottle", "ph", "--probe", "glass", "--point", "6.86: 5 mV @ 25 °C")]
    [InlineData("is clearly the one with that voltage", "ph", "--probe", "glass", "--point", "300 mV @ 25 °C")]
    [InlineData("no --point was given and there is no terminal", "ph", "--probe", "glass")]
    [InlineData("--point was given 4 times", "ph", "--probe", "glass", "--point", "7: 1 mV @ 25 °C", "--point", "7: 1 mV @ 25 °C", "--point", "7: 1 mV @ 25 °C", "--point", "7: 1 mV @ 25 °C")]
    [InlineData("which is no probe of this configuration; wanted one of 'glass'.", "ph", "--probe", "glas", "--point", "7: 1 mV @ 25 °C")]
    [InlineData("which measures orp; wanted one of 'glass'.", "ph", "--probe", "platinum", "--point", "7: 1 mV @ 25 °C")]
    [InlineData("which delivers finished pH", "ph", "--probe", "finished", "--point", "7: 1 mV @ 25 °C")]
    [InlineData("--pieces was given with one buffer", "ph", "--probe", "glass", "--pieces", "--point", "7.00: 5.0 mV @ 25 °C")]
    [InlineData("--reading is '7: 214 mV @ 25 °C'", "orp", "--probe", "platinum", "--solution", "zobell", "--reading", "7: 214 mV @ 25 °C")]
    [InlineData("no --reading was given", "orp", "--probe", "platinum", "--solution", "zobell")]
    [InlineData("'ink'", "orp", "--probe", "platinum", "--solution", "ink", "--reading", "1 mV @ 25 °C")]
    public async Task Wrong_usage_is_said_in_a_sentence(string sentence, params string[] arguments)
    {
        var (code, _, error) = await _bench.RunAsync(["calibrate", .. arguments]);
        Assert.Equal(64, code);
        Assert.Contains(sentence, error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Buffers_that_make_no_line_are_refused_with_what_was_wanted()
    {
        var (code, _, error) = await _bench.RunAsync([.. Ph, "--point", "7.00: -170.0 mV @ 25 °C", "--point", "10.01: 5.0 mV @ 25 °C"]);
        Assert.Equal(1, code);
        Assert.Contains("make no calibration of probe 'glass': fall of the voltage for one pH is", error, StringComparison.Ordinal);
        Assert.DoesNotContain("Parameter", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Limits_at_a_probe_that_is_not_calibrated_here_are_a_fault_of_the_configuration()
    {
        var text = await File.ReadAllTextAsync(_bench.Config, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(_bench.Config, text.Replace("\"electrode mV\"", "\"pH\"", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        var (code, _, error) = await _bench.RunAsync([.. Ph, "--point", "7.00: 5.0 mV @ 25 °C"]);
        Assert.Equal(78, code);
        Assert.Contains("vats[0].probes[0].calibration is limits for ph in \"pH\"; wanted no such key here", error, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private IReadOnlyList<StoredCalibration> Kept()
    {
        using var reader = StoreReader.OpenFolder(_bench.Data);
        return CalibrationTable.All(reader);
    }
}
