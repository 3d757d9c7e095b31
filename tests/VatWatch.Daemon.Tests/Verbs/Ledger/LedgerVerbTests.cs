using System.Text.Json;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Daemon.Tests.Verbs.Ledger;

public sealed class LedgerVerbTests : IDisposable
{
    private readonly Bench _bench = new();

    [Fact]
    public async Task Json_holds_the_agreed_keys()
    {
        await WriteAsync(
            new EntryDraft(new("weld-60"), EntryKind.MadeAnew, "Ida") { Amount = 60 },
            new EntryDraft(new("weld-60"), EntryKind.Added, "Ida") { Material = Material.Stock, Amount = 2, Strength = 60 });
        var (code, said, error) = await _bench.RunAsync(["ledger", "--vat", "weld-60", "--json"]);
        Assert.Equal((0, ""), (code, error));
        using var json = JsonDocument.Parse(said);
        foreach (var name in (string[])["liquor", "indigo", "alkalinity", "reducer"])
        {
            var line = json.RootElement.GetProperty(name);
            Assert.InRange(line.GetProperty("value").GetDouble(), line.GetProperty("low").GetDouble(), line.GetProperty("high").GetDouble());
            Assert.NotEqual(0, line.GetProperty("restsOn").GetArrayLength());
        }

        Assert.Equal((120, "g"), (Math.Round(json.RootElement.GetProperty("indigo").GetProperty("value").GetDouble()), json.RootElement.GetProperty("indigo").GetProperty("unit").GetString()));
    }

    [Fact]
    public async Task A_person_reads_each_line_with_what_it_rests_on()
    {
        var (code, said, _) = await _bench.RunAsync(["ledger", "--vat", "weld-60"]);
        Assert.Equal(0, code);
        Assert.Contains("Nobody wrote when it was made", said, StringComparison.Ordinal);
        Assert.Contains("reducing agent", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_unknown_vat_is_wrong_usage()
    {
        var (code, _, error) = await _bench.RunAsync(["ledger", "--vat", "nowhere"]);
        Assert.Equal(64, code);
        Assert.Contains("wanted one of 'weld-60'", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Revive_names_causes_with_shares_a_question_and_steps()
    {
        await WriteAsync(new EntryDraft(new("weld-60"), EntryKind.Sign, "Ida") { Sign = Sign.Blue });
        var (code, said, error) = await _bench.RunAsync(["revive", "--vat", "weld-60", "--json"]);
        Assert.Equal((0, ""), (code, error));
        using var json = JsonDocument.Parse(said);
        Assert.Equal(1, json.RootElement.GetProperty("causes").EnumerateArray().Sum(one => one.GetProperty("share").GetDouble()), 2);
        Assert.Equal("reducing-agent", json.RootElement.GetProperty("causes")[0].GetProperty("cause").GetString());
        Assert.False(string.IsNullOrEmpty(json.RootElement.GetProperty("ask").GetString()));
        Assert.NotEqual(0, json.RootElement.GetProperty("steps").GetArrayLength());

        (code, said, _) = await _bench.RunAsync(["revive", "--vat", "weld-60"]);
        Assert.Equal(0, code);
        Assert.Contains("the likely cause is too little reducing agent", said, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private async Task WriteAsync(params EntryDraft[] drafts)
    {
        await using var store = WatchStore.Open(_bench.Data, new StoreOptions(), TimeProvider.System, NullLogger<WatchStore>.Instance);
        foreach (var draft in drafts)
        {
            var now = new Stamp(TimeProvider.System.GetUtcNow(), TimeSpan.Zero, true);
            await store.WriteAsync(work => EntryTable.Write(work, draft, null, now), TestContext.Current.CancellationToken);
        }
    }
}
