using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Alarms.Journal;
using VatWatch.Conditions;
using VatWatch.Conditions.Stored;
using VatWatch.Measurements;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.Influx.Tests;

/// <summary>A store with its writer, and a forwarder to a server, in a folder of its own. Each may be stopped and started again.</summary>
internal sealed class CopyRig : IAsyncDisposable
{
    private readonly string _site;
    private readonly CancellationTokenSource _closing = new();
    private readonly Task _writing;
    private CancellationTokenSource _stop = new();
    private Task _forwarding = Task.CompletedTask;

    public CopyRig(RecordingInflux server, string site = "hill-studio", Func<InfluxOptions, InfluxOptions>? change = null)
        : this(server.Url, site, change)
    {
    }

    public CopyRig(string url, string site = "hill-studio", Func<InfluxOptions, InfluxOptions>? change = null)
    {
        _site = site;
        File.WriteAllText(TokenFile, "write-only\n");
        var options = new InfluxOptions
        {
            Url = new Uri(url),
            Org = "studio",
            Bucket = "vats",
            TokenFile = TokenFile,
            Every = TimeSpan.FromMilliseconds(50),
            Waits = (TimeSpan.FromMilliseconds(20), TimeSpan.FromMilliseconds(200)),
        };
        Options = change?.Invoke(options) ?? options;
        Store = WatchStore.Open(Folder, new StoreOptions { CommitInterval = TimeSpan.FromSeconds(1), KeepReadings = TimeSpan.FromDays(100_000) }, TimeProvider.System, NullLogger<WatchStore>.Instance);
        _writing = Store.RunAsync(_closing.Token);
        Forwarder = New();
    }

    /// <summary>A night of our own.</summary>
    public static DateTimeOffset Dusk { get; } = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    public string Folder { get; } = Directory.CreateTempSubdirectory("copy-test-").FullName;

    public string TokenFile => Path.Combine(Folder, "token");

    public InfluxOptions Options { get; }

    public WatchStore Store { get; }

    public InfluxForwarder Forwarder { get; private set; }

    public static Measurement Reading(double seconds, double? value = 43.62, string probe = "liquor", Quantity measures = Quantity.Temperature) => new(
        new VatId("madder-lane"),
        new ProbeId(probe),
        measures,
        new Stamp(Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true),
        value,
        value,
        value is null ? Quality.Missing : Quality.Good,
        value is null ? "no reply within 500 ms" : null,
        null);

    public static AlarmChange Change(double seconds, AlarmState before = AlarmState.Normal, AlarmState after = AlarmState.Unacknowledged) => new(
        before,
        new AlarmStatus
        {
            Alarm = new("overheat"),
            Vat = new VatId("madder-lane"),
            State = after,
            Priority = AlarmPriority.Critical,
            Since = new Stamp(Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true),
            Value = 120.4,
            Limit = 120,
            Unit = "°F",
            Text = "Madder Lane vat is at 120.4 °F, \"limit\" 120 °F.",
            Action = "Unplug the heater.",
        },
        new Stamp(Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true),
        null,
        true);

    public static VatCondition Condition(double seconds, VatState state = VatState.Warming) => new()
    {
        Vat = new VatId("madder-lane"),
        Stamp = new Stamp(Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true),
        State = state,
        Reasons = ["The liquor is at 96 °F.", "It warms by 5 °F an hour."],
        TemperatureC = 35.6,
        TimeToBand = new Forecast(TimeSpan.FromMinutes(40), TimeSpan.FromMinutes(50), null),
    };

    public async Task OfferAsync(params IEnumerable<Measurement> readings)
    {
        foreach (var reading in readings)
        {
            Store.Enqueue(reading);
        }

        await Store.FlushAsync(TestContext.Current.CancellationToken);
    }

    public Task KeepAsync(params AlarmChange[] changes) => Store.WriteAsync(
        work =>
        {
            foreach (var change in changes)
            {
                AlarmJournal.Append(work, change);
            }

            return 0;
        },
        TestContext.Current.CancellationToken);

    public Task KeepAsync(params VatCondition[] conditions) => Store.WriteAsync(
        work =>
        {
            ConditionTable.Append(work, conditions, TimeSpan.FromDays(100_000));
            return 0;
        },
        TestContext.Current.CancellationToken);

    public void Start()
    {
        _stop = new();
        _forwarding = Forwarder.RunAsync(_stop.Token);
    }

    /// <summary>Stops the forwarder as the daemon does, and makes another that knows only what is in the store.</summary>
    public async Task StopAsync()
    {
        await _stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => _forwarding.WaitAsync(TimeSpan.FromSeconds(20)));
        _forwarding = Task.CompletedTask;
        Forwarder = New();
    }

    /// <summary>Every point of the store as (series and time, fields).</summary>
    public Dictionary<(string, string), string> Expected()
    {
        using var reader = Store.OpenReader();
        var page = StorePage.Read(reader, ForwardPlace.Beginning, new PointLines(_site, DisplayUnits.Us), int.MaxValue);
        return page.Lines.Select(Split).ToDictionary(point => point.Key, point => point.Fields);
    }

    public IReadOnlyList<RefusedPoint> Refused()
    {
        using var reader = Store.OpenReader();
        return ForwardTable.Refused(reader, Options.Server);
    }

    public ForwardPlace? Place()
    {
        using var reader = Store.OpenReader();
        return ForwardTable.Place(reader, Options.Server);
    }

    /// <summary>Waits until the server has exactly what the store holds.</summary>
    public Task CopiedAsync(RecordingInflux server, int seconds = 30) => Eventually.TrueAsync(
        () => Expected() is var expected && expected.All(point => server.Points.TryGetValue(point.Key, out var fields) && fields == point.Value),
        "everything is on the server",
        TimeSpan.FromSeconds(seconds));

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        await Task.WhenAny(_forwarding, Task.Delay(TimeSpan.FromSeconds(20)));
        await _closing.CancelAsync();
        await _writing.WaitAsync(TimeSpan.FromSeconds(20));
        await Store.DisposeAsync();
        Directory.Delete(Folder, recursive: true);
    }

    private static ((string, string) Key, string Fields) Split(string line)
    {
        var series = System.Text.RegularExpressions.Regex.Match(line, @"^(?:\\.|[^\\ ])*").Length;
        var time = line.LastIndexOf(' ');
        return ((line[..series], line[(time + 1)..]), line[(series + 1)..time]);
    }

    private InfluxForwarder New() => new(Store, Options, _site, DisplayUnits.Us, TimeProvider.System, new Logger<InfluxForwarder>(NullLoggerFactory.Instance));
}
