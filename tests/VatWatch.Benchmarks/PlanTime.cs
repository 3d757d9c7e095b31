using System.Diagnostics;
using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Daemon.Dosing;
using VatWatch.Daemon.Plans;
using VatWatch.Daemon.Web.Plans;
using VatWatch.Measurements;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;
using VatWatch.Vats.Configuration;

namespace VatWatch.Benchmarks;

/// <summary>
/// How long the plan of a day with six loads takes, with the additions on the way by what the ledger says is in the vat, in this process, the code warm; and how long what the page reads from
/// the store for it: three weeks of four probes every 10 s, and their log book.
/// </summary>
internal static class PlanTime
{
    private const int Rounds = 21;
    private const double BoundMilliseconds = 100;
    private const int Days = 20;
    private const int Every = 10;
    private static readonly DateTimeOffset Start = new(2026, 3, 6, 0, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset Now = Start.AddDays(Days);
    private static readonly DayAsked Asked = new(["2 kg wool x 4 dips", "9 kg cotton x 6 dips", "6 kg linen x 8 dips", "500 g silk x 3 dips"], "09:00", "45 °C", null, null, null, null);

    private static readonly VatDefinition Vat = new()
    {
        Id = new("madder-lane"),
        Name = "Madder Lane vat",
        VolumeLitres = 150,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new(38, 48, 49),
        HeaterWatts = 1500,
        Probes = [Probe("liquor", Quantity.Temperature), Probe("room", Quantity.Ambient), Probe("liquor-ph", Quantity.Ph), Probe("liquor-orp", Quantity.Orp)],
    };

    public static async Task MeasureAsync(Table table)
    {
        var folder = Directory.CreateTempSubdirectory("vatwatch-bench-plan").FullName;
        try
        {
            var entries = await FillAsync(folder);
            var times = Enumerable.Range(0, Rounds).Select(_ => Time(folder)).ToList();
            var read = times.Select(time => time.Read).Order().ElementAt(Rounds / 2);
            table.Share(
                "plan of a day of six loads with its additions, milliseconds",
                $"median of {Rounds}",
                times.Select(time => time.Plan).Order().ElementAt(Rounds / 2),
                BoundMilliseconds);
            table.Note(
                "reading of ledger, dips and heat for it, milliseconds",
                $"log book of {entries} entries, median of {Rounds}",
                read.ToString("0", CultureInfo.InvariantCulture));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static ProbeDefinition Probe(string id, Quantity measures) => new(new(id), new("madder-lane"), measures, new("none"), "text-line", TimeSpan.FromSeconds(Every), SampleUnit.Canonical(measures));

    private static (double Read, double Plan) Time(string folder)
    {
        var figures = new DoseFigures();
        var clock = Stopwatch.StartNew();
        using var reader = StoreReader.OpenFolder(folder);
        var kept = PlanKept.ReadAll(reader, Vat, Now, TimeZoneInfo.Utc);
        var read = clock.Elapsed.TotalMilliseconds;
        var known = new StoredVat(45, null, 18, kept.Learned, kept.Seen) { Dip = kept.Dips.Length, Recovery = kept.Dips.Recovery };
        var reply = Asked.Answer(Vat, known, kept.Contents, figures, name => name, Now, TimeZoneInfo.Utc, DisplayUnits.Si);
        var elapsed = clock.Elapsed.TotalMilliseconds;
        var plan = reply.Plan ?? throw new InvalidOperationException($"the day could not be planned: {reply.Refused}{string.Join(" ", figures.Faults)}");
        return plan.Loads.Count == 6 && plan.Additions.Count > 0 ? (read, elapsed - read) : throw new InvalidOperationException($"{plan.Loads.Count} loads instead of six, {plan.Additions.Count} additions");
    }

    /// <summary>Writes the readings and the log book; how many entries it has.</summary>
    private static async Task<int> FillAsync(string folder)
    {
        await using var store = WatchStore.Open(folder, new StoreOptions { KeepReadings = TimeSpan.FromDays(3650) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        using var stop = new CancellationTokenSource();
        var running = store.RunAsync(stop.Token);
        var random = new Random(1);
        var entries = 0;
        for (var day = 0; day < Days; day++)
        {
            for (var i = 0; i < 24 * 3600 / Every; i++)
            {
                var at = TimeSpan.FromDays(day) + TimeSpan.FromSeconds(Every * i);
                Enqueue("liquor", Quantity.Temperature, 43 + 2 * Math.Sin(at.TotalHours), 2);
                Enqueue("room", Quantity.Ambient, 17 + Math.Sin(at.TotalHours / 4), 2);
                Enqueue("liquor-ph", Quantity.Ph, 10.2 - 0.1 * Math.Sin(at.TotalHours / 4), 2);
                Enqueue("liquor-orp", Quantity.Orp, -680 + 10 * Math.Sin(at.TotalHours / 4), 1);

                void Enqueue(string probe, Quantity measures, double value, int decimals) => store.Enqueue(new Measurement(
                    Vat.Id, new ProbeId(probe), measures, new Stamp(Start + at, at, true), null, Math.Round(value + (random.NextDouble() - 0.5) * 0.1, decimals), Quality.Good, null, null));
            }

            await store.FlushAsync(CancellationToken.None);
            entries += await store.WriteAsync(work => Write(work, day), CancellationToken.None);
        }

        await stop.CancelAsync();
        await running.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        return entries;
    }

    /// <summary>The log book of a day: dye, soda ash and reducing agent, goods, and six dips of them.</summary>
    private static int Write(StoreTransaction work, int day)
    {
        var (opens, count) = (TimeSpan.FromDays(day) + TimeSpan.FromHours(8), 0);
        var session = SessionTable.Start(work, Vat.Id, DateOnly.FromDateTime((Start + opens).UtcDateTime), At(0), "dyer", SessionDetails.None).Id;
        Add(0, new(Vat.Id, day == 0 ? EntryKind.MadeAnew : EntryKind.Added, "dyer") { Material = day == 0 ? null : Material.Stock, Amount = day == 0 ? 150 : 1, Strength = day == 0 ? null : 50 });
        Add(5, new(Vat.Id, EntryKind.Added, "dyer") { Material = day == 0 ? Material.Stock : Material.SodaAsh, Amount = day == 0 ? 6 : 30, Strength = day == 0 ? 50 : null });
        Add(day == 0 ? 6 : 35, new(Vat.Id, EntryKind.Added, "dyer") { Material = Material.ReducingAgent, Amount = day == 0 ? 60 : 20 });
        if (day == 0)
        {
            Add(7, new(Vat.Id, EntryKind.Added, "dyer") { Material = Material.SodaAsh, Amount = 300 });
        }

        Add(80, new(Vat.Id, EntryKind.Goods, "dyer") { Amount = 1000, Goods = GoodsKind.Yarn });
        for (var dip = 0; dip < 6; dip++)
        {
            Add(90 + 30 * dip, new(Vat.Id, EntryKind.DipIn, "dyer"));
            Add(100 + 30 * dip, new(Vat.Id, EntryKind.DipOut, "dyer"));
        }

        return count;

        Stamp At(double minutes) => new(Start + opens + TimeSpan.FromMinutes(minutes), opens + TimeSpan.FromMinutes(minutes), true);

        void Add(double minutes, EntryDraft draft)
        {
            EntryTable.Write(work, draft, session, At(minutes));
            count++;
        }
    }
}
