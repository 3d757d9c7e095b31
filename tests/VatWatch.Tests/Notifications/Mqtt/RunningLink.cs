using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Commands;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>A link of site hill-studio that runs until disposed, with its outbox and what it said and asked. Waits are short.</summary>
internal sealed class RunningLink : IAsyncDisposable, ILogger
{
    public static readonly VatId Madder = new("madder-lane");
    private readonly CancellationTokenSource _stop = new();
    private readonly ContactSender[] _senders;
    private readonly Task _run;

    public static MqttTimings Short { get; } = new()
    {
        Exchange = TimeSpan.FromSeconds(2),
        Connect = TimeSpan.FromSeconds(5),
        FirstRetry = TimeSpan.FromMilliseconds(100),
        MostRetry = TimeSpan.FromMilliseconds(400),
    };

    public static DeliveryTimings ShortDelivery { get; } = new()
    {
        FirstRefusedRetry = TimeSpan.FromMilliseconds(200),
        MostRefusedRetry = TimeSpan.FromSeconds(5),
        OutboxRetry = TimeSpan.FromMilliseconds(50),
    };

    public RunningLink(MqttOptions options, MqttTimings? timings = null, DeliveryTimings? delivery = null, RecordingDesk? desk = null, TimeProvider? deskTime = null)
    {
        Link = new(options, "hill-studio", DisplayUnits.Us, TimeProvider.System, this, timings ?? Short);
        _senders =
        [
            new("phone", "mqtt", new TopicDelivery(Link, new(null), null, this), OutboxTable, delivery ?? ShortDelivery, TimeProvider.System, this),
            new("dyer", "mqtt", new TopicDelivery(Link, new(null), "dyer", this), OwnOutbox, delivery ?? ShortDelivery, TimeProvider.System, this),
        ];
        Desk = desk ?? new RecordingDesk { Answer = act => Task.FromResult(act.Alarm.Value == "overheat") };
        var alarms = new AlarmService(Desk, deskTime ?? TimeProvider.System, NullLogger<AlarmService>.Instance);
        _run = Task.WhenAll([Link.RunAsync(new([Madder], () => IsWatching), new TopicCommands(alarms, WriteEntryAsync), _stop.Token), .. _senders.Select(sender => RunAsync(sender))]);
    }

    public MqttLink Link { get; }

    public MemoryOutbox OutboxTable { get; } = new();

    /// <summary>Of a contact with a topic of their own, "dyer".</summary>
    public MemoryOutbox OwnOutbox { get; } = new();

    /// <summary>Whether the watch behind the link says that it watches.</summary>
    public bool IsWatching { get; set; } = true;

    /// <summary>How the contact on the common topic does.</summary>
    public ContactHealth Phone => _senders[0].Health;

    /// <summary>Every state of the link that was told, in order.</summary>
    public ConcurrentQueue<MqttLinkState> States { get; } = new();

    public ConcurrentQueue<string> Logged { get; } = new();

    /// <summary>Where commands end.</summary>
    public RecordingDesk Desk { get; }

    public IReadOnlyList<AlarmAct> Acknowledged => Desk.Taken;

    /// <summary>Entries of the log book that came in by topic.</summary>
    public ConcurrentQueue<EntryDraft> Entries { get; } = new();

    public static MqttOptions To(int port) => new() { IsBuiltin = false, Host = "127.0.0.1", Port = port };

    public Task ConnectedAsync() => Eventually.TrueAsync(() => Link.State.Connected, $"the link connects; {Link.State.Reason}");

    public Task LostAsync(TimeSpan? limit = null) => Eventually.TrueAsync(() => !Link.State.Connected, "the link notices the loss", limit);

    public void Tell(long id, string sentence = "Madder Lane vat: 121.0 °F, limit 120 °F.", string vat = "madder-lane")
    {
        OutboxTable.Add(new(id, new(vat), new("overheat"), AlarmPriority.Critical, At(id).Utc, $"{id} {sentence}"));
        WakeSenders();
    }

    public void WakeSenders()
    {
        foreach (var sender in _senders)
        {
            sender.Wake();
        }
    }

    public static Stamp At(double seconds) => new(new DateTimeOffset(2026, 3, 1, 22, 15, 0, TimeSpan.Zero).AddSeconds(seconds), TimeSpan.FromSeconds(seconds), true);

    public static Measurement Liquor(double? celsius, double seconds = 0) =>
        new(Madder, new("liquor"), Quantity.Temperature, At(seconds), celsius, celsius, celsius is null ? Quality.Missing : Quality.Good, celsius is null ? "no reply within 2 s" : null, null);

    public static AlarmStatus Overheat(AlarmState state, double fahrenheit = 121) => new()
    {
        Alarm = new("overheat"),
        Vat = Madder,
        State = state,
        Priority = AlarmPriority.Critical,
        Since = At(0),
        Value = fahrenheit,
        Limit = 120,
        Unit = "°F",
        Text = $"Madder Lane vat: {fahrenheit:0.0} °F, limit 120 °F.",
        Action = "Switch the heater off at the plug.",
    };

    public static VatCondition Warming(double celsius) => new()
    {
        Vat = Madder,
        Stamp = At(0),
        State = VatState.Warming,
        Reasons = ["The liquor is at 95.0 °F and rising."],
        TemperatureC = celsius,
        TemperatureRateKPerHour = 3.2,
        TimeToBand = new(TimeSpan.FromMinutes(40), TimeSpan.FromMinutes(52), null),
    };

    public async Task StopAsync()
    {
        await _stop.CancelAsync();
        await _run.WaitAsync(TimeSpan.FromSeconds(15));
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        _stop.Dispose();
    }

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
    {
        Logged.Enqueue($"{logLevel} {eventId.Id} {formatter(state, exception)} {exception}");
        if (eventId.Id is Connected or NotConnected)
        {
            var reason = (state as IEnumerable<KeyValuePair<string, object?>>)?.FirstOrDefault(value => value.Key == "Reason").Value as string;
            States.Enqueue(new(eventId.Id == Connected, reason));
        }
    }

    private const int Connected = 6100;
    private const int NotConnected = 6101;

    private Task<string?> WriteEntryAsync(EntryDraft draft, CancellationToken cancel)
    {
        Entries.Enqueue(draft);
        return Task.FromResult(draft.By == "Nobody" ? "There is no vat 'madder-lane'." : null);
    }

    private async Task RunAsync(ContactSender sender) => await sender.RunAsync(_stop.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
}
