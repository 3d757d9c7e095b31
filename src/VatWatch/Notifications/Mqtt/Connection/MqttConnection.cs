using MQTTnet;
using MQTTnet.Protocol;

namespace VatWatch.Notifications.Mqtt.Connection;

/// <summary>
/// One connection from its opening to its end; never reopened. Every call has a time limit, and whatever the library throws comes out as
/// <see cref="BrokerLostException"/>. Calls may overlap.
/// </summary>
internal sealed class MqttConnection : IAsyncDisposable
{
    private readonly IMqttClient _client;
    private readonly TaskCompletionSource<string> _lost = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TimeProvider _time;
    private readonly MqttTimings _timings;
    private TimeSpan _pingEvery;

    private MqttConnection(MqttTimings timings, TimeProvider time)
    {
        _timings = timings;
        _time = time;
        _client = new MqttClientFactory().CreateMqttClient(new BoundedClientAdapterFactory());
        _client.DisconnectedAsync += gone =>
        {
            _lost.TrySetResult(BrokerText.Ended(gone, _client.Options?.ClientId ?? ""));
            return Task.CompletedTask;
        };
    }

    /// <summary>Completes with a clause for people when the connection ends by itself.</summary>
    public Task<string> Lost => _lost.Task;

    /// <summary>Connects. <paramref name="received"/> gets messages one after another; a session that lived on may bring some at once.</summary>
    public static async Task<MqttConnection> OpenAsync(
        MqttOptions options, MqttClientOptions settings, Func<MqttConnection, MqttApplicationMessage, Task> received, MqttTimings timings, TimeProvider time, CancellationToken cancel)
    {
        var connection = new MqttConnection(timings, time);
        try
        {
            connection._client.ApplicationMessageReceivedAsync += arrived => received(connection, arrived.ApplicationMessage);
            var result = await connection.BoundedAsync("connecting", timings.Connect, token => connection._client.ConnectAsync(settings, token), cancel);
            if (result.ResultCode != MqttClientConnectResultCode.Success)
            {
                throw BrokerText.Refused(result, options);
            }

            // The library notes the broker's Server Keep Alive and then goes by its own (5.2.0), and it never pings while anything is being
            // sent, which hides a dead line behind QoS 0 traffic. So the pinging is done here.
            var keepAlive = result.ServerKeepAlive > 0 ? TimeSpan.FromSeconds(result.ServerKeepAlive) : timings.KeepAlive;
            connection._pingEvery = (keepAlive < timings.KeepAlive ? keepAlive : timings.KeepAlive) / 2;
            return connection;
        }
        catch
        {
            await connection.DisposeAsync();
            throw;
        }
    }

    /// <summary>Publishes; for QoS 1 completes with the broker's acknowledgement, whose reason may be a refusal.</summary>
    public Task<MqttClientPublishResult> PublishAsync(MqttApplicationMessage message, CancellationToken cancel) =>
        BoundedAsync("publishing", _timings.Exchange, token => _client.PublishAsync(message, token), cancel);

    /// <summary>
    /// Publishes with QoS 1; null when the broker does not acknowledge it although it answers a ping. A connection on which that goes
    /// unanswered too is dead.
    /// </summary>
    public async Task<MqttClientPublishResult?> TryPublishAsync(MqttApplicationMessage message, CancellationToken cancel)
    {
        try
        {
            return await PublishAsync(message, cancel);
        }
        catch (BrokerLostException lost) when (lost.IsUnanswered && !Lost.IsCompleted)
        {
            await PingAsync(cancel);
            return null;
        }
    }

    /// <summary>Ends the connection for a reason of ours; <see cref="Lost"/> completes with it.</summary>
    public void GiveUp(string reason) => _lost.TrySetResult(reason);

    /// <summary>Subscribes with QoS 1, leaving out what is retained unless wanted; false when the broker refuses.</summary>
    public async Task<bool> TrySubscribeAsync(string filter, CancellationToken cancel, bool withRetained = false)
    {
        var options = new MqttClientSubscribeOptionsBuilder()
            .WithTopicFilter(topic => topic
                .WithTopic(filter)
                .WithAtLeastOnceQoS()
                .WithRetainHandling(withRetained ? MqttRetainHandling.SendAtSubscribe : MqttRetainHandling.DoNotSendOnSubscribe)
                .WithRetainAsPublished())
            .Build();
        var result = await BoundedAsync("subscribing", _timings.Exchange, token => _client.SubscribeAsync(options, token), cancel);
        return result.Items.All(item => item.ResultCode is MqttClientSubscribeResultCode.GrantedQoS0 or MqttClientSubscribeResultCode.GrantedQoS1);
    }

    /// <summary>Pings until cancelled; throws <see cref="BrokerLostException"/> when a ping goes unanswered.</summary>
    public async Task KeepAliveAsync(CancellationToken cancel, Pulse? pulse = null)
    {
        while (true)
        {
            pulse?.Tick();
            await Task.Delay(_pingEvery, _time, cancel);
            await PingAsync(cancel);
        }
    }

    private Task<bool> PingAsync(CancellationToken cancel) => BoundedAsync("a ping", _timings.Exchange, async token =>
    {
        await _client.PingAsync(token);
        return true;
    }, cancel);

    /// <summary>Says <paramref name="farewell"/> and disconnects, in which case the broker does not publish the will. Never throws.</summary>
    public async Task LeaveAsync(MqttApplicationMessage farewell)
    {
        try
        {
            await BoundedAsync("taking leave", _timings.Leave, token => _client.PublishAsync(farewell, token), CancellationToken.None);
            await BoundedAsync("taking leave", _timings.Leave, async token =>
            {
                await _client.DisconnectAsync(new MqttClientDisconnectOptions(), token);
                return true;
            }, CancellationToken.None);
        }
        catch (BrokerLostException)
        {
            // The will says it for us.
        }
    }

    public async ValueTask DisposeAsync()
    {
        try
        {
            // The library's disconnect waits without limit for its own tasks; disposing closes the socket in any case.
            await Task.Run(_client.Dispose).WaitAsync(_timings.Leave, _time);
        }
        catch (Exception)
        {
            // Nothing of it is used again.
        }
    }

    private async Task<T> BoundedAsync<T>(string doing, TimeSpan limit, Func<CancellationToken, Task<T>> call, CancellationToken cancel)
    {
        using var deadline = new Deadline(limit, _time, cancel);
        try
        {
            return await call(deadline.Token).WaitAsync(deadline.Token);
        }
        catch (OperationCanceledException) when (cancel.IsCancellationRequested)
        {
            throw;
        }
        catch (Exception wrong)
        {
            var clause = deadline.HasPassed ? $"no answer to {doing} within {limit.TotalSeconds:0.#} s" : BrokerText.Clause(wrong, doing);
            throw new BrokerLostException(clause, wrong) { NeedsPerson = BrokerText.NeedsPerson(wrong), IsUnanswered = deadline.HasPassed };
        }
    }
}
