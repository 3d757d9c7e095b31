using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Probes.Recorded;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Verbs;

/// <summary><c>report</c> of readings, <c>backup</c> and <c>verify</c>, on a store with one night in it.</summary>
public sealed class StoreVerbsTests : IDisposable
{
    private static readonly DateTimeOffset Dusk = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);
    private readonly Bench _bench = new();

    [Fact]
    public async Task Readings_exported_to_csv_are_read_back_as_a_recorded_log()
    {
        var night = await FillAsync();
        var file = Path.Combine(_bench.Data, "night.csv");

        var (code, said, _) = await _bench.RunAsync(["report", "--out", file]);

        Assert.Equal((0, $"{file}: {night.Count} readings.{Environment.NewLine}"), (code, said));
        Assert.StartsWith("time,probe,value,", File.ReadLines(file).First(), StringComparison.Ordinal);
        using var text = File.OpenText(file);
        var faults = new List<RecordedLogFault>();
        var rows = RecordedLog.Read(text, faults.Add).ToList();
        Assert.Empty(faults);
        Assert.Equal(night.Select(m => (m.Stamp.Utc, m.Probe, m.Value)), rows.Select(row => (row.Time, row.Probe, row.Value)));
    }

    [Fact]
    public async Task A_span_of_one_vat_is_exported_to_parquet()
    {
        await FillAsync();
        var file = Path.Combine(_bench.Data, "hour.parquet");
        var (code, said, _) = await _bench.RunAsync(["report", "--vat", "weld-60", "--from", "2031-03-14T18:00Z", "--to", "2031-03-14T18:01Z", "--out", file]);
        Assert.Equal((0, $"{file}: 25 readings.{Environment.NewLine}"), (code, said));
        Assert.Equal("PAR1"u8, File.ReadAllBytes(file).AsSpan(0, 4));
    }

    [Theory]
    [InlineData("night.txt", "wanted .parquet, .csv, .html, .pdf, .png or .svg at its end")]
    public async Task An_unknown_ending_is_wrong_usage(string file, string sentence)
    {
        await FillAsync();
        var (code, _, error) = await _bench.RunAsync(["report", "--out", file]);
        Assert.Equal(64, code);
        Assert.Contains(sentence, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_span_without_readings_writes_nothing()
    {
        await FillAsync();
        var file = Path.Combine(_bench.Data, "empty.csv");
        var (code, _, error) = await _bench.RunAsync(["report", "--from", "2040-01-01T00:00Z", "--out", file]);
        Assert.Equal(1, code);
        Assert.Contains("holds no reading", error, StringComparison.Ordinal);
        Assert.False(File.Exists(file));
    }

    [Fact]
    public async Task A_copy_is_made_once_replaced_when_told_and_found_sound()
    {
        var night = await FillAsync();
        var file = Path.Combine(_bench.Data, "copy.db");
        Assert.Equal(0, (await _bench.RunAsync(["backup", file])).Code);
        var (code, _, error) = await _bench.RunAsync(["backup", file]);
        Assert.Equal(1, code);
        Assert.Contains("--replace", error, StringComparison.Ordinal);
        Assert.Equal(0, (await _bench.RunAsync(["backup", file, "--replace"])).Code);

        var (sound, said, _) = await _bench.RunAsync(["verify", "--file", file]);
        Assert.Equal((0, $"{file}: sound; {night.Count} readings in the database.{Environment.NewLine}"), (sound, said));
    }

    [Fact]
    public async Task The_store_itself_is_no_place_for_its_copy()
    {
        await FillAsync();
        var (code, _, error) = await _bench.RunAsync(["backup", Path.Combine(_bench.Data, "vatwatch.db"), "--replace"]);
        Assert.Equal(64, code);
        Assert.Contains("is the store itself", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Damage_is_said_in_sentences_with_exit_code_1()
    {
        await FillAsync();
        var file = Path.Combine(_bench.Data, "copy.db");
        await _bench.RunAsync(["backup", file]);
        var bytes = File.ReadAllBytes(file);
        bytes.AsSpan(bytes.Length / 2, 4000).Fill(0xA5);
        File.WriteAllBytes(file, bytes);

        var (code, _, error) = await _bench.RunAsync(["verify", "--file", file]);

        Assert.Equal(1, code);
        Assert.Contains("vatwatch: SQLite found damage: ", error, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private async Task<List<Measurement>> FillAsync()
    {
        List<Measurement> night = [.. Enumerable.Range(0, 2000).SelectMany(n => (Measurement[])
        [
            One(n * 5, "glass", Quantity.Ph, n % 9 == 0 ? null : 9.5 + n % 13 / 100.0),
            One(n * 5 + 0.25, "platinum", Quantity.Orp, -640.1 - n / 7.0),
        ])];
        await using var store = WatchStore.Open(_bench.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
        night.ForEach(reading => Assert.True(store.Enqueue(reading)));
        await store.FlushAsync(TestContext.Current.CancellationToken);
        return night;
    }

    private static Measurement One(double seconds, string probe, Quantity measures, double? value) => new(
        new VatId("weld-60"),
        new ProbeId(probe),
        measures,
        new Stamp(Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true),
        value,
        value,
        value is null ? Quality.Missing : Quality.Good,
        value is null ? "no reply, \"none\"" : null,
        null);
}
