using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications.Mqtt.Commands;
using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Keeps the broker's topics true: connects, publishes, takes commands, and does it all again when the broker has been away. What is to be
/// published is remembered, so a broker that forgot its retained messages gets them anew at every connection. Everything but
/// <see cref="RunAsync"/> is thread safe and never waits.
/// </summary>
/// <remarks>The link only knows alarms that it was given: after a start of the daemon every alarm is to be given once, normal ones too.</remarks>
public sealed class MqttLink : ITopicPublisher
{
    private readonly string _clientId;
    private readonly Lock _gate = new();
    private readonly ILogger _log;
    private readonly MeasurementPublisher _measurements;
    private readonly MqttOptions _options;
    private readonly RetainedPublisher _retained;
    private readonly TimeProvider _time;
    private readonly MqttTimings _timings;
    private MqttConnection? _connection;
    private TaskCompletionSource _ready = NewSignal();
    private volatile MqttLinkState _state = new(false, "The broker has not been reached yet.");

    /// <summary>Prepares a link; nothing is opened before <see cref="RunAsync"/>.</summary>
    /// <param name="options">The broker.</param>
    /// <param name="site">The configuration's <c>site</c>.</param>
    /// <param name="units">Units in which topics are written.</param>
    /// <param name="time">Clock of the network's waits: the wall's, not a simulation's.</param>
    public MqttLink(MqttOptions options, string site, DisplayUnits units, TimeProvider time, ILogger<MqttLink> log)
        : this(options, site, units, time, log, new MqttTimings())
    {
    }

    internal MqttLink(MqttOptions options, string site, DisplayUnits units, TimeProvider time, ILogger log, MqttTimings timings)
    {
        (_options, _time, _log, _timings) = (options, time, log, timings);
        _clientId = $"vatwatch-{site}";
        Topics = new(site);
        Messages = new(Topics, units);
        _retained = new(Messages, Counters, timings, time, log);
        _measurements = new(Messages, Counters, timings, time);
    }

    /// <summary>A connection was made, and all that is retained is being published on it.</summary>
    internal event Action? Reconnected;

    /// <summary>Whether the broker is there.</summary>
    public MqttLinkState State => _state;

    /// <summary>What the link has done.</summary>
    public MqttCounters Counters { get; } = new();

    /// <summary>Names of the site's topics.</summary>
    internal MqttTopics Topics { get; }

    /// <summary>Makes the site's messages.</summary>
    internal MqttMessages Messages { get; }

    /// <summary>The connection; null while there is none.</summary>
    internal MqttConnection? Connection
    {
        get
        {
            lock (_gate)
            {
                return _connection;
            }
        }
    }

    public void Enqueue(Measurement measurement) => _measurements.Enqueue(measurement);

    public void Enqueue(VatCondition condition) => _retained.Enqueue(condition);

    public void Enqueue(AlarmStatus status) => _retained.Enqueue(status);

    /// <summary>Completes when there is a connection.</summary>
    internal Task ReadyAsync(CancellationToken cancel)
    {
        lock (_gate)
        {
            return _ready.Task.WaitAsync(cancel);
        }
    }

    /// <summary>Ends a connection that has turned out to be dead; the link makes another.</summary>
    internal void GiveUp(MqttConnection connection, string reason)
    {
        Remove(connection);
        connection.GiveUp(reason);
    }

    /// <summary>Keeps the link until cancelled; then says <c>offline</c>, takes leave and returns. One call at a time.</summary>
    /// <param name="heartbeat">What the heartbeat says and rests on.</param>
    /// <param name="commands">Carry out what comes in by topic.</param>
    /// <param name="pulse">Ticks with every try and every ping.</param>
    public async Task RunAsync(Heartbeat heartbeat, TopicCommands commands, CancellationToken cancel, Pulse? pulse = null)
    {
        var broken = new Backoff(_timings.FirstRetry, _timings.MostRetry, Random.Shared.NextDouble);
        var refused = new Backoff(_timings.FirstRefusedRetry, _timings.MostRefusedRetry, Random.Shared.NextDouble);
        var beats = new HeartbeatPublisher(heartbeat, Messages, _timings, _time);
        var handler = new CommandHandler(Topics, commands, Counters, _time, _log);
        while (!cancel.IsCancellationRequested)
        {
            pulse?.Tick();
            var begun = _time.GetTimestamp();
            var loss = await KeepConnectionAsync(beats, handler, pulse, cancel);
            if (loss is null)
            {
                break;
            }

            if (_time.GetElapsedTime(begun) >= _timings.Sound && !loss.NeedsPerson)
            {
                broken.Reset();
                refused.Reset();
            }

            Counters.FailedAttempts.Add();
            var wait = (loss.NeedsPerson ? refused : broken).Next();
            ChangeState(new(false, $"MQTT {_options.Address}: {loss.Message}."), wait);
            await Task.Delay(wait, _time, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        _state = new(false, "The daemon is stopping.");
    }

    /// <summary>One connection from beginning to end: null when cancelled, otherwise why it ended.</summary>
    private async Task<BrokerLostException?> KeepConnectionAsync(HeartbeatPublisher beats, CommandHandler commands, Pulse? pulse, CancellationToken cancel)
    {
        try
        {
            var settings = ClientSettings.Make(_options, _clientId, Messages.Status(MqttMessages.Offline), _timings);
            await using var connection = await MqttConnection.OpenAsync(
                _options, settings, (from, message) => ReceiveAsync(commands, from, message, cancel), _timings, _time, cancel);
            await AnnounceAsync(connection, cancel);
            BrokerLostException? loss;
            try
            {
                loss = await PublishAsync(connection, beats, pulse, cancel);
            }
            finally
            {
                Remove(connection);
            }

            if (loss is null)
            {
                await connection.LeaveAsync(Messages.Status(MqttMessages.Offline));
            }

            return loss;
        }
        catch (BrokerLostException loss)
        {
            return loss;
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            return null;
        }
    }

    private async Task AnnounceAsync(MqttConnection connection, CancellationToken cancel)
    {
        foreach (var filter in Topics.CommandFilters)
        {
            if (!await connection.TrySubscribeAsync(filter, cancel))
            {
                _log.CommandsRefused(_options.Address, filter);
            }
        }

        var result = await connection.PublishAsync(Messages.Status(MqttMessages.Online), cancel);
        if (!result.IsSuccess)
        {
            throw new BrokerLostException($"it refuses topic {Topics.Status} ({BrokerText.Reason(result)}); wanted the right to write {Topics.Prefix}/#") { NeedsPerson = true };
        }

        Counters.Connections.Add();
        ChangeState(new(true, null), TimeSpan.Zero);
        Use(connection);
    }

    /// <summary>Runs the publishers side by side until one fails, the connection ends or the daemon stops; then ends them all.</summary>
    private async Task<BrokerLostException?> PublishAsync(MqttConnection connection, HeartbeatPublisher beats, Pulse? pulse, CancellationToken cancel)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        Task[] publishers =
        [
            _retained.RunAsync(connection, stop.Token),
            beats.RunAsync(connection, stop.Token),
            _measurements.RunAsync(connection, stop.Token),
            connection.KeepAliveAsync(stop.Token, pulse),
        ];
        await Task.WhenAny([.. publishers, connection.Lost]);
        await stop.CancelAsync();
        await Task.WhenAll(publishers).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        if (cancel.IsCancellationRequested)
        {
            return null;
        }

        // What the connection itself says comes first: a publisher that was cut off only knows that it was.
        var failed = publishers.Select(publisher => publisher.Exception?.InnerException).FirstOrDefault(wrong => wrong is not null);
        if (failed is BrokerLostException lost)
        {
            connection.GiveUp(lost.Message);
        }

        return connection.Lost.IsCompletedSuccessfully
            ? new BrokerLostException(await connection.Lost)
            : throw new InvalidOperationException("a publisher of the MQTT link ended without a reason", failed);
    }

    private static async Task ReceiveAsync(CommandHandler commands, MqttConnection from, MqttApplicationMessage message, CancellationToken cancel)
    {
        try
        {
            await commands.HandleAsync(message, answer => from.PublishAsync(answer, cancel), cancel);
        }
        catch (BrokerLostException)
        {
            // The answer could not be sent; the publishers see the loss and tell it.
        }
    }

    private void Use(MqttConnection connection)
    {
        lock (_gate)
        {
            _connection = connection;
            _ready.TrySetResult();
        }

        Reconnected?.Invoke();
    }

    private void Remove(MqttConnection connection)
    {
        lock (_gate)
        {
            if (_connection == connection)
            {
                (_connection, _ready) = (null, NewSignal());
            }
        }
    }

    private static TaskCompletionSource NewSignal() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    private void ChangeState(MqttLinkState state, TimeSpan nextTry)
    {
        if (state == _state)
        {
            return;
        }

        if (state.Connected)
        {
            _log.Connected(_options.Address);
        }
        else if (state.Reason is { } reason)
        {
            _log.NotConnected(reason, Math.Round(nextTry.TotalSeconds, 1));
        }

        _state = state;
    }
}

/// <summary>Whether the broker is there, as the <c>broker-lost</c> alarm and the health page see it.</summary>
/// <param name="Connected">True while notifications can go out.</param>
/// <param name="Reason">Why not, as a sentence for people; null while connected.</param>
public sealed record MqttLinkState(bool Connected, string? Reason);
