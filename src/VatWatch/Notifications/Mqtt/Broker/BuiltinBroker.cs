using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Logging;
using MQTTnet.Protocol;
using MQTTnet.Server;
using MQTTnet.Server.Internal.Adapter;

namespace VatWatch.Notifications.Mqtt.Broker;

/// <summary>
/// The daemon's own MQTT broker, for programs on this computer: it listens on loopback and asks for no password. Retained messages live in
/// memory; the link writes them anew after a start. What a client can make it keep is bounded.
/// </summary>
public sealed class BuiltinBroker : IAsyncDisposable
{
    /// <summary>Clients, those away with a session included.</summary>
    public const int MostClients = 200;

    private const int MostRetained = 5000;
    private const int MostPayloadBytes = 64 * 1024;

    /// <summary>A phone that is away: a night of notifications and then some.</summary>
    private const int MostPendingPerClient = 1000;

    /// <summary>From one try to open the port to the next.</summary>
    internal static readonly TimeSpan Again = TimeSpan.FromSeconds(5);

    private static readonly TimeSpan StopLimit = TimeSpan.FromSeconds(3);
    private readonly ILogger _log;
    private readonly MqttOptions _options;
    private readonly HashSet<string> _retained = new(StringComparer.Ordinal);
    private readonly Lock _gate = new();
    private readonly TimeProvider _time;
    private readonly CancellationTokenSource _ended = new();
    private Task _opening = Task.CompletedTask;
    private MqttServer? _server;

    /// <summary>Prepares the broker; nothing is opened before <see cref="StartAsync"/>.</summary>
    public BuiltinBroker(MqttOptions options, ILogger<BuiltinBroker> log)
        : this(options, TimeProvider.System, log)
    {
    }

    /// <summary>As above, with the clock by which sessions expire.</summary>
    internal BuiltinBroker(MqttOptions options, TimeProvider time, ILogger<BuiltinBroker> log)
    {
        (_options, _time, _log) = (options, time, log);
    }

    /// <summary>Opens the port. While it cannot be opened, this is told once and tried again until the broker is disposed: the watch does not depend on it.</summary>
    public async Task StartAsync(CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (await TryOpenAsync() is { } sentence)
        {
            _log.BrokerNotOpened(sentence);
            _opening = OpenLaterAsync();
        }
    }

    private async Task OpenLaterAsync()
    {
        do
        {
            await Task.Delay(Again, _time, _ended.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
        while (!_ended.IsCancellationRequested && await TryOpenAsync() is not null);
    }

    /// <summary>Null once it listens, else why not and what to change.</summary>
    private async Task<string?> TryOpenAsync()
    {
        var server = new MqttServerFactory().CreateMqttServer(Settings(), [new NamingServerAdapter(new MqttTcpServerAdapter())]);
        server.ValidatingConnectionAsync += ValidateAsync;
        server.InterceptingPublishAsync += InterceptAsync;
        try
        {
            await server.StartAsync();
        }
        catch (SocketException wrong)
        {
            server.Dispose();
            return Sentence(wrong);
        }

        _server = server;
        _log.BrokerListens(_options.Listen.ToString());
        return null;
    }

    public async ValueTask DisposeAsync()
    {
        await _ended.CancelAsync();
        await _opening;
        if (Interlocked.Exchange(ref _server, null) is not { } server)
        {
            return;
        }

        try
        {
            await server.StopAsync(new MqttServerStopOptions()).WaitAsync(StopLimit, _time);
        }
        catch (TimeoutException)
        {
            // Disposing closes the sockets in any case.
        }
        finally
        {
            server.Dispose();
        }
    }

    private MqttServerOptions Settings() => new MqttServerOptionsBuilder()
        .WithDefaultEndpoint()
        .WithDefaultEndpointPort(_options.Listen.Port)
        .WithDefaultEndpointBoundIPAddress(IsV6 ? IPAddress.None : _options.Listen.Address)
        .WithDefaultEndpointBoundIPV6Address(IsV6 ? _options.Listen.Address : IPAddress.None)
        .WithPersistentSessions()
        .WithoutPacketFragmentation()
        .WithMaxPendingMessagesPerClient(MostPendingPerClient)
        .WithPendingMessagesOverflowStrategy(MqttPendingMessagesOverflowStrategy.DropOldestQueuedMessage)
        .Build();

    private bool IsV6 => _options.Listen.AddressFamily == AddressFamily.InterNetworkV6;

    private string Sentence(SocketException wrong) => wrong.SocketErrorCode switch
    {
        SocketError.AddressAlreadyInUse =>
            $"Built-in MQTT broker cannot start: {_options.Listen} is in use by another program. Set mqtt.listen to another port, or mqtt.broker to that program's address if it is a broker.",
        SocketError.AccessDenied => $"Built-in MQTT broker cannot start: port {_options.Listen.Port} is not allowed to this user. Set mqtt.listen to a port above 1023.",
        SocketError.AddressNotAvailable => $"Built-in MQTT broker cannot start: this machine has no address {_options.Listen.Address}. Change mqtt.listen.",
        _ => $"Built-in MQTT broker on {_options.Listen} cannot start ({wrong.Message}). Change mqtt.listen.",
    };

    /// <summary>A name for a client that leaves it to the broker; not to be guessed.</summary>
    internal static string NewClientName() => $"client-{Guid.NewGuid():N}";

    private async Task ValidateAsync(ValidatingConnectionEventArgs client)
    {
        if (_server is { } server && !await MakeRoomAsync(server, client.ClientId))
        {
            client.ReasonCode = MqttConnectReasonCode.ServerBusy;
            _log.BrokerRefused($"there are {MostClients} clients already");
            return;
        }

        if (string.IsNullOrEmpty(client.ClientId))
        {
            // MQTT 5 §3.1.3.1: a client may leave its name to the broker. The library refuses it (133) unless one is given here.
            client.AssignedClientIdentifier = NewClientName();
        }
    }

    /// <summary>
    /// The library keeps the session of a client that has gone for ever (5.2.0), whatever expiry the client asked for. So those past it are
    /// removed here, and when there is no room the one that has been away longest.
    /// </summary>
    private async Task<bool> MakeRoomAsync(MqttServer server, string? newcomer)
    {
        var sessions = await server.GetSessionsAsync();
        var now = _time.GetUtcNow().UtcDateTime;
        var away = sessions.Where(session => session.DisconnectedTimestamp is not null).OrderBy(session => session.DisconnectedTimestamp).ToList();
        var expired = away.Where(session => session.ExpiryInterval is > 0 and < uint.MaxValue && now - session.DisconnectedTimestamp > TimeSpan.FromSeconds(session.ExpiryInterval)).ToList();
        foreach (var session in expired)
        {
            await session.DeleteAsync();
        }

        if (sessions.Count - expired.Count < MostClients || sessions.Any(session => session.Id == newcomer))
        {
            return true;
        }

        if (away.Except(expired).FirstOrDefault() is not { } longestAway)
        {
            return false;
        }

        await longestAway.DeleteAsync();
        return true;
    }

    private Task InterceptAsync(InterceptingPublishEventArgs publish)
    {
        var message = publish.ApplicationMessage;
        if (message.Payload.Length > MostPayloadBytes || (message.Retain && !MayRetain(message.Topic, message.Payload.IsEmpty)))
        {
            publish.ProcessPublish = false;
            publish.Response.ReasonCode = MqttPubAckReasonCode.QuotaExceeded;
        }

        return Task.CompletedTask;
    }

    private bool MayRetain(string topic, bool clears)
    {
        lock (_gate)
        {
            if (clears)
            {
                _retained.Remove(topic);
                return true;
            }

            return _retained.Contains(topic) || (_retained.Count < MostRetained && _retained.Add(topic));
        }
    }
}
