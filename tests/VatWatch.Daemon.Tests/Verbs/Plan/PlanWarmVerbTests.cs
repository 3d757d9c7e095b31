using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Verbs.Plan;

public sealed class PlanWarmVerbTests : IDisposable
{
    private readonly Bench _bench = new();

    public PlanWarmVerbTests() => File.WriteAllText(_bench.Config, """
        {
          "site": "weld-yard", "display": "si", "data": "unused",
          "buses": { "bench": { "kind": "serial", "port": "/dev/vatwatch/none" } },
          "vats": [ {
            "id": "weld-60", "volume": "60 L", "fibre": "cellulose", "reducer": "fructose",
            "temperature": { "low": "40 °C", "high": "48 °C", "limit": "49 °C" },
            "probes": [ { "id": "liquor", "measures": "temperature", "bus": "bench", "driver": "text-line", "settings": { "ask": "T?\\r", "pattern": "^T=(?<value>[-+0-9.]+)$", "unit": "°C" } } ]
          } ]
        }
        """);

    [Fact]
    public async Task Json_holds_the_agreed_keys_and_times_with_their_offset()
    {
        var (code, said, error) = await PlanAsync("--at", "45 °C", "--from", "18 °C", "--heater", "1500 W", "--json");
        Assert.Equal((0, ""), (code, error));
        using var json = JsonDocument.Parse(said);
        var root = json.RootElement;
        Assert.All(["switchOn", "switchOff", "ready", "earliest", "latestSafe", "kWh", "assumptions"], key => Assert.True(root.TryGetProperty(key, out _), key));
        Assert.True(root.GetProperty("switchOn").GetDateTimeOffset() < root.GetProperty("ready").GetDateTimeOffset());
        // 60 L from 18 to 45 °C want 60 · 0.998 · 4.18 · 27 kJ = 6.76 MJ = 1.88 kWh, vat and losses beside it.
        Assert.InRange(root.GetProperty("kWh").GetDouble(), 1.85, 2.3);
        Assert.Contains(root.GetProperty("cautions").EnumerateArray(), one => one.GetString()!.Contains("no safety device", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_person_reads_when_to_switch_what_it_costs_and_what_to_look_at()
    {
        var (code, said, _) = await PlanAsync("--from", "18 °C", "--heater", "1500 W");
        Assert.Equal(0, code);
        Assert.Contains("switch on", said, StringComparison.Ordinal);
        Assert.Contains("kWh", said, StringComparison.Ordinal);
        Assert.Contains("1500 W is 6.5 A at 230 V, so a circuit of at least 9 A", Regex.Replace(said, @"\s+", " "), StringComparison.Ordinal);
        Assert.DoesNotContain("may run unattended", said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("is not known: say its power", "--from", "18 °C")]
    [InlineData("is not known: nothing was measured yet", "--heater", "1500 W")]
    [InlineData("is not below the limit", "--from", "18 °C", "--heater", "1500 W", "--at", "50 °C")]
    public async Task What_cannot_be_planned_is_refused_with_a_sentence(string words, params string[] options)
    {
        var (code, said, error) = await PlanAsync(options);
        Assert.Equal((1, ""), (code, said));
        Assert.Contains(words, error, StringComparison.Ordinal);

        (code, said, _) = await PlanAsync([.. options, "--json"]);
        Assert.Equal(1, code);
        using var json = JsonDocument.Parse(said);
        Assert.Contains(words, json.RootElement.GetProperty("refused").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--heater is '0 W'; wanted a power", "--heater", "0 W")]
    [InlineData("--at is '300 °F'; wanted a temperature", "--heater", "1500 W", "--at", "300 °F")]
    [InlineData("--room is '90 °C'; wanted a temperature", "--heater", "1500 W", "--room", "90 °C")]
    public async Task Figures_that_cannot_be_meant_are_named(string words, params string[] options)
    {
        var (code, said, error) = await PlanAsync([.. options, "--from", "18 °C"]);
        Assert.Equal((64, ""), (code, said));
        Assert.Contains(words, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_probe_at_fault_is_named()
    {
        await StoreAsync(Quality.Fault, "no reply");
        var (code, _, error) = await PlanAsync("--heater", "1500 W");
        Assert.Equal(1, code);
        Assert.Contains("probe 'liquor' is at fault: no reply", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_reading_in_the_store_is_the_liquor_now()
    {
        await StoreAsync(Quality.Good, null);
        var (code, said, _) = await PlanAsync("--heater", "1500 W");
        Assert.Equal(0, code);
        Assert.Contains("The liquor is at 21.5 °C now", said, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--at is '45'; wanted a temperature with its unit", "--at", "45")]
    [InlineData("--heater is 'strong'; wanted a power", "--heater", "strong")]
    public async Task What_cannot_be_read_is_wrong_usage(string words, params string[] options)
    {
        var (code, _, error) = await PlanAsync(["--from", "18 °C", .. options]);
        Assert.Equal(64, code);
        Assert.Contains(words, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_vat_is_wrong_usage()
    {
        var (code, _, error) = await _bench.RunAsync(["plan", "warm", "--vat", "nowhere", "--ready", "09:00"]);
        Assert.Equal(64, code);
        Assert.Contains("wanted one of 'weld-60'", error, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    /// <summary>Twelve hours ahead by the wall's clock, so that the wish can be kept at any hour of the day.</summary>
    private Task<(int Code, string Out, string Error)> PlanAsync(params string[] options) =>
        _bench.RunAsync(["plan", "warm", "--vat", "weld-60", "--ready", TimeProvider.System.GetLocalNow().AddHours(12).ToString("HH:mm"), .. options]);

    private async Task StoreAsync(Quality quality, string? reason)
    {
        await using var store = WatchStore.Open(_bench.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
        store.Enqueue(new Measurement(
            new("weld-60"), new("liquor"), Quantity.Temperature, new Stamp(TimeProvider.System.GetUtcNow(), TimeSpan.Zero, true), 21.5, quality == Quality.Good ? 21.5 : null, quality, reason, null));
        await store.FlushAsync(TestContext.Current.CancellationToken);
    }
}
