using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Time;
using VatWatch.Vats;

// A process of its own for tests of the store: it is killed, or it holds something while a test looks on. It says on standard output what it
// has done, one line each, and goes on until its standard input ends or it is killed.
//
//   acknowledged FOLDER   writes calibrations one after the other; "N" once number N is on disk
//   offered FOLDER        offers readings every 2 ms with a commit interval of 1 s; "N MS" once number N was offered, MS ms after the start
//   night FOLDER          24 probes at 1 Hz with a commit interval of 1 s; "offered N" for each second, "acknowledged N" once all up to N are on disk
//   hold FOLDER           opens the store; "held"
//   lock FILE             holds BEGIN EXCLUSIVE on a database; "locked"
switch (args)
{
    case ["acknowledged", var folder]:
        await WriteAcknowledgedAsync(folder);
        return 0;
    case ["offered", var folder]:
        await OfferAsync(folder);
        return 0;
    case ["night", var folder]:
        await WatchNightAsync(folder);
        return 0;
    case ["hold", var folder]:
        await using (Open(folder))
        {
            Say("held");
            Console.In.ReadToEnd();
        }

        return 0;
    case ["lock", var file]:
        using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "BEGIN EXCLUSIVE";
            command.ExecuteNonQuery();
            Say("locked");
            Console.In.ReadToEnd();
        }

        return 0;
    default:
        Console.Error.WriteLine("wanted one of: acknowledged FOLDER, offered FOLDER, night FOLDER, hold FOLDER, lock FILE");
        return 64;
}

static WatchStore Open(string folder) => WatchStore.Open(
    folder, new StoreOptions { CommitInterval = TimeSpan.FromSeconds(1) }, TimeProvider.System, NullLogger<WatchStore>.Instance);

static void Say(string line)
{
    Console.Out.WriteLine(line);
    Console.Out.Flush();
}

static async Task WriteAcknowledgedAsync(string folder)
{
    await using var store = Open(folder);
    var running = store.RunAsync(CancellationToken.None);
    for (var number = 1; !running.IsCompleted; number++)
    {
        var json = number.ToString(CultureInfo.InvariantCulture);
        await store.WriteAsync(transaction => CalibrationTable.Append(transaction, new ProbeId("liquor"), DateTimeOffset.UnixEpoch, json), CancellationToken.None);
        Say(json);
    }
}

static async Task OfferAsync(string folder)
{
    await using var store = Open(folder);
    var running = store.RunAsync(CancellationToken.None);
    var clock = new WatchClock(TimeProvider.System);
    var started = Stopwatch.StartNew();
    for (var number = 1; !running.IsCompleted; number++)
    {
        var offered = started.ElapsedMilliseconds;
        store.Offer(new Measurement(
            new VatId("madder-lane"), new ProbeId("liquor"), Measures.Temperature, clock.Now(), number, number, Quality.Good, null, null));
        Say(string.Create(CultureInfo.InvariantCulture, $"{number} {offered}"));
        await Task.Delay(2);
    }
}

static async Task WatchNightAsync(string folder)
{
    await using var store = Open(folder);
    var running = store.RunAsync(CancellationToken.None);
    var clock = new WatchClock(TimeProvider.System);
    using var second = new PeriodicTimer(TimeSpan.FromSeconds(1));
    for (var number = 1; !running.IsCompleted; number++)
    {
        for (var probe = 0; probe < 24; probe++)
        {
            store.Offer(new Measurement(
                new VatId("madder-lane"), new ProbeId($"probe-{probe}"), Measures.Temperature, clock.Now(), number, number, Quality.Good, null, null));
        }

        Say($"offered {number}");
        if (number % 2 == 0)
        {
            await store.FlushAsync(CancellationToken.None);
            Say($"acknowledged {number}");
        }

        await second.WaitForNextTickAsync();
    }
}
