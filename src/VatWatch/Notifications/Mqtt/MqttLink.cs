using MQTTnet;
using Microsoft.Extensions.Logging;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;

namespace VatWatch.Notifications.Mqtt;

/// <summary>
/// Keeps the broker's topics true: connects, tells, takes commands, and does it all again when the broker has been away. What is offered
/// is remembered, so a broker that forgot its retained messages gets them anew at every connection. Everything but
/// <see cref="RunAsync"/> is thread safe and never waits.
/// </summary>
/// <remarks>The link only knows alarms that were offered: after a start of the daemon every alarm is to be offered once, normal ones too.</remarks>
public sealed class MqttLink
{
    private readonly string _clientId;
    private readonly CommandHandler _commands;
    private readonly ILogger _log;
    private readonly MeasurementPublisher _measurements;
    private readonly MqttMessages _messages;
    private readonly HeartbeatPublisher _heartbeat;
    private readonly NotificationLane[] _notifications;
    private readonly MqttOptions _options;
    private readonly RetainedPublisher _retained;
    private readonly MqttTally _tally = new();
    private readonly TimeProvider _time;
    private readonly MqttTimings _timings;
    private readonly MqttTopics _topics;
    private volatile MqttLinkState _state = new(false, "The broker has not been reached yet.");

    /// <summary>Prepares a link; nothing is opened before <see cref="RunAsync"/>.</summary>
    /// <param name="options">The broker.</param>
    /// <param name="site">The configuration's <c>site</c>.</param>
    /// <param name="recipients">Who is told by topic, each with an outbox.</param>
    /// <param name="heartbeat">What the heartbeat says and rests on.</param>
    /// <param name="carryOut">Carries out a command; null when there was nothing to do.</param>
    /// <param name="time">Clock of the network's waits: the wall's, not a simulation's.</param>
    /// <param name="log">Log.</param>
    public MqttLink(
        MqttOptions options, string site, DisplayUnits units, IReadOnlyList<MqttRecipient> recipients, Heartbeat heartbeat, Func<AlarmAct, CancellationToken, Task<AlarmChange?>> carryOut, TimeProvider time, ILogger<MqttLink> log)
        : this(options, site, units, recipients, heartbeat, carryOut, time, log, new MqttTimings())
    {
    }

    internal MqttLink(
        MqttOptions options, string site, DisplayUnits units, IReadOnlyList<MqttRecipient> recipients, Heartbeat heartbeat, Func<AlarmAct, CancellationToken, Task<AlarmChange?>> carryOut, TimeProvider time, ILogger log, MqttTimings timings)
    {
        (_options, _time, _log, _timings) = (options, time, log, timings);
        _clientId = $"vatwatch-{site}";
        _topics = new(site);
        _messages = new(_topics, units);
        _commands = new(_topics, carryOut, _tally, timings, time, log);
        _retained = new(_messages, _tally, timings, time, log);
        _measurements = new(_messages, _tally, timings, time);
        _heartbeat = new(heartbeat, _messages, timings, time);
        _notifications = [.. recipients.Select(recipient => new NotificationLane(recipient, _messages, _tally, timings, time, log))];
    }

    /// <summary>Raised on connecting, on losing the connection, and when the reason for being without one changes; from the link's own loop.</summary>
    public event EventHandler<MqttLinkState>? StateChanged;

    /// <summary>Whether the broker is there.</summary>
    public MqttLinkState State => _state;

    /// <summary>The counts at this moment.</summary>
    public MqttCounters Counters => _tally.Snapshot();

    /// <summary>Publishes a measurement, as soon as it can be.</summary>
    public void Enqueue(Measurement measurement) => _measurements.Enqueue(measurement);

    /// <summary>Publishes a condition, as soon as it can be and unless a newer one comes first.</summary>
    public void Enqueue(VatCondition condition) => _retained.Enqueue(condition);

    /// <summary>Publishes an alarm's state, as soon as it can be and unless a newer one comes first.</summary>
    public void Enqueue(AlarmStatus status) => _retained.Enqueue(status);

    /// <summary>Something new is in the outbox.</summary>
    public void NotificationsWaiting()
    {
        foreach (var lane in _notifications)
        {
            lane.Ring();
        }
    }

    /// <summary>Keeps the link until cancelled; then says <c>offline</c>, takes leave and returns. One call at a time.</summary>
    public async Task RunAsync(CancellationToken cancel, Pulse? pulse = null)
    {
        var broken = new Backoff(_timings.FirstRetry, _timings.MostRetry, Random.Shared.NextDouble);
        var refused = new Backoff(_timings.FirstRefusedRetry, _timings.MostRefusedRetry, Random.Shared.NextDouble);
        while (!cancel.IsCancellationRequested)
        {
            pulse?.Tick();
            var begun = _time.GetTimestamp();
            var loss = await KeepConnectionAsync(pulse, cancel);
            if (loss is null)
            {
                break;
            }

            if (_time.GetElapsedTime(begun) >= _timings.Sound && !loss.NeedsPerson)
            {
                broken.Reset();
                refused.Reset();
            }

            Interlocked.Increment(ref _tally.FailedAttempts);
            var wait = (loss.NeedsPerson ? refused : broken).Next();
            ChangeState(new(false, $"MQTT {_options.Address}: {loss.Message}."), wait);
            await Task.Delay(wait, _time, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        _state = new(false, "The daemon is stopping.");
    }

    /// <summary>One connection from beginning to end: null when cancelled, otherwise why it ended.</summary>
    private async Task<BrokerLostException?> KeepConnectionAsync(Pulse? pulse, CancellationToken cancel)
    {
        try
        {
            var settings = ClientSettings.Make(_options, _clientId, _messages.Status(MqttMessages.Offline), _timings);
            await using var connection = await MqttConnection.OpenAsync(_options, settings, (from, message) => ReceiveAsync(from, message, cancel), _timings, _time, cancel);
            await AnnounceAsync(connection, cancel);
            var loss = await RunLanesAsync(connection, pulse, cancel);
            if (loss is null)
            {
                await connection.LeaveAsync(_messages.Status(MqttMessages.Offline));
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
        foreach (var filter in _topics.CommandFilters)
        {
            if (!await connection.TrySubscribeAsync(filter, cancel))
            {
                _log.CommandsRefused(_options.Address, filter);
            }
        }

        var result = await connection.PublishAsync(_messages.Status(MqttMessages.Online), cancel);
        if (!result.IsSuccess)
        {
            throw new BrokerLostException($"it refuses topic {_topics.Status} ({result.ReasonCode}); wanted the right to write {_topics.Prefix}/#") { NeedsPerson = true };
        }

        Interlocked.Increment(ref _tally.Connections);
        ChangeState(new(true, null), TimeSpan.Zero);
    }

    /// <summary>Runs the lanes side by side until one fails, the connection ends or the daemon stops; then ends them all.</summary>
    private async Task<BrokerLostException?> RunLanesAsync(MqttConnection connection, Pulse? pulse, CancellationToken cancel)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        Task[] lanes =
        [
            _retained.RunAsync(connection, stop.Token),
            .. _notifications.Select(lane => lane.RunAsync(connection, stop.Token)),
            _heartbeat.RunAsync(connection, stop.Token),
            _measurements.RunAsync(connection, stop.Token),
            connection.KeepAliveAsync(stop.Token, pulse),
        ];
        await Task.WhenAny([.. lanes, connection.Lost]);
        await stop.CancelAsync();
        await Task.WhenAll(lanes).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        if (cancel.IsCancellationRequested)
        {
            return null;
        }

        // What the connection itself says comes first: a lane that was cut off only knows that it was.
        var failed = lanes.Select(lane => lane.Exception?.InnerException).FirstOrDefault(wrong => wrong is not null);
        return connection.Lost.IsCompletedSuccessfully
            ? new BrokerLostException(await connection.Lost)
            : failed as BrokerLostException ?? throw new InvalidOperationException("a lane of the MQTT link ended without a reason", failed);
    }

    private async Task ReceiveAsync(MqttConnection from, MqttApplicationMessage message, CancellationToken cancel)
    {
        try
        {
            await _commands.HandleAsync(message, answer => from.PublishAsync(answer, cancel), cancel);
        }
        catch (BrokerLostException)
        {
            // The answer could not be sent; the loss is seen and told by the lanes.
        }
    }

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
        StateChanged?.Invoke(this, state);
    }
}

/// <summary>Whether the broker is there, as the <c>broker-lost</c> alarm and the health page see it.</summary>
/// <param name="Connected">True while notifications can go out.</param>
/// <param name="Reason">Why not, as a sentence for people; null while connected.</param>
public sealed record MqttLinkState(bool Connected, string? Reason);
