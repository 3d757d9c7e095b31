using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Measurements;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Commands;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Stages;
using VatWatch.Store;

// A process of its own for tests of the store: it is killed, or it holds something while a test looks on. It says on standard output what it
// has done, one line each, and goes on until its standard input ends or it is killed.
//
//   acknowledged FOLDER   writes calibrations one after the other; "N" once number N is on disk
//   offered FOLDER        offers readings every 2 ms with a commit interval of 1 s; "N MS" once number N was offered, MS ms after the start
//   notify FOLDER PORT FROM TO   files alarms FROM to TO of two vats, 7.2 min of their clock apart, for the broker at PORT; "N" once number N is
//                         on disk; tells what waits whenever the broker is there
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
    case ["notify", var folder, var port, var from, var to]:
        await NotifyAsync(folder, Number(port), Number(from), Number(to));
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
        Console.Error.WriteLine("wanted one of: acknowledged FOLDER, offered FOLDER, night FOLDER, notify FOLDER PORT FROM TO, hold FOLDER, lock FILE");
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
        store.Enqueue(new Measurement(
            new VatId("madder-lane"), new ProbeId("liquor"), Quantity.Temperature, clock.Now(), number, number, Quality.Good, null, null));
        Say(string.Create(CultureInfo.InvariantCulture, $"{number} {offered}"));
        await Task.Delay(2);
    }
}

static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);

static async Task NotifyAsync(string folder, int port, int from, int to)
{
    await using var store = Open(folder);
    _ = store.RunAsync(CancellationToken.None);
    var broker = new MqttOptions { IsBuiltin = false, Host = "127.0.0.1", Port = port };
    var link = new MqttLink(broker, "hill-studio", DisplayUnits.Us, TimeProvider.System, NullLogger<MqttLink>.Instance);
    var router = NotificationRouter.Make(ContactTable.Usual(DisplayUnits.Us), "hill-studio", null, store, link, NullLoggerFactory.Instance);
    _ = link.RunAsync(new([], () => false), new TopicCommands(new AlarmService(new NoActions(), TimeProvider.System, NullLogger<AlarmService>.Instance), (_, _) => Task.FromResult<string?>(null)), CancellationToken.None);
    _ = Task.WhenAll(router.Senders.Select(sender => sender.RunAsync(CancellationToken.None)));
    var alarms = new AlarmStore(store);
    for (var number = from; number <= to; number++)
    {
        var at = new Stamp(DateTimeOffset.UnixEpoch.AddMinutes(7.2 * number), TimeSpan.FromMinutes(7.2 * number), true);
        var change = new AlarmChange(AlarmState.Normal, Overheat(number, at), at, null, true);
        await alarms.AppendAsync([change], router.Take(change, at), router.Unstored, CancellationToken.None);
        router.Wake();
        Say(number.ToString(CultureInfo.InvariantCulture));
    }

    Console.In.ReadToEnd();
}

static AlarmStatus Overheat(int number, Stamp at) => new()
{
    Alarm = new("overheat"),
    Vat = number % 2 == 0 ? new("madder-lane") : new("weld-yard"),
    State = AlarmState.Unacknowledged,
    Priority = AlarmPriority.Critical,
    Since = at,
    Text = number.ToString(CultureInfo.InvariantCulture),
    Action = "Switch the heater off at the plug.",
};

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
            store.Enqueue(new Measurement(
                new VatId("madder-lane"), new ProbeId($"probe-{probe}"), Quantity.Temperature, clock.Now(), number, number, Quality.Good, null, null));
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

/// <summary>No command comes in here.</summary>
internal sealed class NoActions : IAlarmActions
{
    public Task<AlarmChange?> CarryOutAsync(AlarmAct act, CancellationToken cancel) => Task.FromResult<AlarmChange?>(null);
}
