using Microsoft.Extensions.Logging;
using MQTTnet;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Connection;

namespace VatWatch.Notifications.Peers;

/// <summary>
/// Listens for another VatWatch on its broker: whether it is there, and why not. Everything but <see cref="RunAsync"/> is thread safe. Time is
/// the wall's, monotonic.
/// </summary>
internal sealed class PeerMonitor
{
    private readonly PeerOptions _options;
    private readonly string _clientId;
    private readonly MqttTopics _topics;
    private readonly MqttTimings _timings;
    private readonly TimeProvider _time;
    private readonly ILogger _log;
    private readonly Lock _gate = new();
    private readonly long _begun;
    private long? _heard;
    private bool _saidOffline;
    private string? _unheard = "its broker has not been reached yet";

    /// <summary>Prepares; nothing is opened before <see cref="RunAsync"/>.</summary>
    /// <param name="options">Whom to listen for.</param>
    /// <param name="site">Our own site, for a name of our own at the broker.</param>
    /// <param name="timings">Waits.</param>
    /// <param name="time">The wall's clock.</param>
    public PeerMonitor(PeerOptions options, string site, MqttTimings timings, TimeProvider time, ILogger log)
    {
        (_options, _timings, _time, _log) = (options, timings, time, log);
        _clientId = $"vatwatch-{site}-hears-{options.Site}";
        _topics = new(options.Site);
        _begun = time.GetTimestamp();
    }

    public string Site => _options.Site;

    /// <summary>Whether it is silent, with a sentence; null while it is too early to say.</summary>
    public (bool? Silent, string Sentence) Verdict
    {
        get
        {
            lock (_gate)
            {
                var patience = _options.SilentAfter;
                if (_saidOffline)
                {
                    return (true, $"The watch of {Site} has stopped: its broker says that it is offline. Nobody watches its vats.");
                }

                if (_time.GetElapsedTime(_heard ?? _begun) < patience)
                {
                    return _heard is null ? (null, $"Nothing was heard of the watch of {Site} yet.") : (false, $"The watch of {Site} is heard again.");
                }

                var how = _heard is { } last ? $"has been silent for {DisplayUnits.Duration(_time.GetElapsedTime(last))}" : "was not heard since this one began";
                return (true, $"The watch of {Site} {how}{(_unheard is { } why ? $"; {why}" : "")}. Nobody may be watching its vats.");
            }
        }
    }

    /// <summary>Listens until cancelled, and connects anew whenever the broker has been away.</summary>
    public async Task RunAsync(CancellationToken cancel, Pulse? pulse = null)
    {
        var broken = new Backoff(_timings.FirstRetry, _timings.MostRetry, Random.Shared.NextDouble);
        var refused = new Backoff(_timings.FirstRefusedRetry, _timings.MostRefusedRetry, Random.Shared.NextDouble);
        while (true)
        {
            pulse?.Tick();
            var begun = _time.GetTimestamp();
            var loss = await ListenAsync(pulse, cancel);
            if (_time.GetElapsedTime(begun) >= _timings.Sound)
            {
                broken.Reset();
                refused.Reset();
            }

            SetUnheard($"its broker {_options.Broker.Address} cannot be used: {loss.Message}");
            await Task.Delay((loss.NeedsPerson ? refused : broken).Next(), _time, cancel);
        }
    }

    private async Task<BrokerLostException> ListenAsync(Pulse? pulse, CancellationToken cancel)
    {
        try
        {
            var settings = ClientSettings.Make(_options.Broker, _clientId, null, _timings);
            await using var connection = await MqttConnection.OpenAsync(_options.Broker, settings, (_, message) => Receive(message), _timings, _time, cancel);

            // The status is retained: a watch that is offline already is known at once.
            if (!await connection.TrySubscribeAsync(_topics.Heartbeat, cancel) || !await connection.TrySubscribeAsync(_topics.Status, cancel, withRetained: true))
            {
                return new BrokerLostException($"it refuses to let us hear {_topics.Prefix}/#") { NeedsPerson = true };
            }

            SetUnheard(null);
            _log.PeerListens(Site, _options.Broker.Address);
            using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
            var pinging = connection.KeepAliveAsync(stop.Token, pulse);
            var ended = await Task.WhenAny(pinging, connection.Lost);
            await stop.CancelAsync();
            await pinging.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            cancel.ThrowIfCancellationRequested();
            return ended == pinging && pinging.Exception?.InnerException is BrokerLostException lost ? lost : new(await connection.Lost.WaitAsync(_timings.Leave, _time, cancel));
        }
        catch (BrokerLostException lost)
        {
            return lost;
        }
        catch (TimeoutException)
        {
            return new("the connection ended without a word");
        }
    }

    private Task Receive(MqttApplicationMessage message)
    {
        lock (_gate)
        {
            if (message.Topic == _topics.Status)
            {
                _saidOffline = message.ConvertPayloadToString() == MqttMessages.Offline;
            }
            else if (message.Topic == _topics.Heartbeat && !message.Retain)
            {
                // A beat after a stale "offline" says more than it: the will may come late.
                (_heard, _saidOffline) = (_time.GetTimestamp(), false);
            }
        }

        return Task.CompletedTask;
    }

    private void SetUnheard(string? why)
    {
        lock (_gate)
        {
            if (why is not null && why != _unheard)
            {
                _log.PeerUnheard(Site, why);
            }

            _unheard = why;
        }
    }
}
