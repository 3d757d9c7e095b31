using System.Diagnostics;

namespace VatWatch.Testing;

/// <summary>One message as a foreign client saw it.</summary>
/// <param name="Topic">Topic.</param>
/// <param name="Qos">Quality of service.</param>
/// <param name="Retained">Whether it came from the broker's memory.</param>
/// <param name="Properties">User properties, for example <c>notification-id:7</c>.</param>
/// <param name="Payload">Payload as text.</param>
internal sealed record ForeignMessage(string Topic, int Qos, bool Retained, string Properties, string Payload);

/// <summary>Listens as a foreign client would: with <c>mosquitto_sub</c>, which reconnects by itself. Disposing ends it.</summary>
internal sealed class MosquittoSub : IDisposable
{
    private readonly List<ForeignMessage> _messages = [];
    private readonly Process _process;

    private MosquittoSub(IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("stdbuf", ["-oL", "mosquitto_sub", .. arguments]) { RedirectStandardError = true, RedirectStandardOutput = true };
        _process = Process.Start(start) ?? throw new InvalidOperationException("mosquitto_sub did not start");
        _process.OutputDataReceived += (_, line) => Note(line.Data);
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
    }

    /// <summary>What has come so far, in order.</summary>
    public IReadOnlyList<ForeignMessage> Messages
    {
        get
        {
            lock (_messages)
            {
                return [.. _messages];
            }
        }
    }

    /// <summary>
    /// Subscribes with QoS 1; completes when the subscription is known to work, unless <paramref name="awaitReady"/> is false because a
    /// broker's rules forbid the test message. With a <paramref name="session"/> the broker keeps messages for it while it is away.
    /// </summary>
    public static async Task<MosquittoSub> StartAsync(MqttAccess access, string filter, string? session = null, bool awaitReady = true)
    {
        var ready = $"rig/ready/{Guid.NewGuid():N}";
        var sub = new MosquittoSub(
        [
            .. access.Arguments, "-q", "1", "-F", "%t|%q|%r|%P|%p", "-t", filter,
            .. awaitReady ? ["-t", ready] : Array.Empty<string>(),
            .. session is null ? Array.Empty<string>() : ["-c", "-i", session, "-x", "3600"],
        ]);
        for (var tries = 0; awaitReady && !sub.Has(ready); tries++)
        {
            if (tries == 50)
            {
                sub.Dispose();
                throw new TimeoutException("mosquitto_sub did not subscribe");
            }

            await MosquittoPub.SendAsync(access, ready, "ready");
            await Task.Delay(50);
        }

        return sub;
    }

    /// <summary>Waits for a message; those already here count.</summary>
    public async Task<ForeignMessage> WaitForAsync(string topic, Func<ForeignMessage, bool>? condition = null, TimeSpan? limit = null)
    {
        ForeignMessage? found = null;
        await Eventually.TrueAsync(
            () => (found = Messages.FirstOrDefault(message => message.Topic == topic && condition?.Invoke(message) != false)) is not null,
            $"a message on {topic}; seen: {string.Join("; ", Messages.TakeLast(10))}", limit);
        return found!;
    }

    public void Dispose()
    {
        UnixSignal.Send(_process.Id, UnixSignal.Kill);
        _process.WaitForExit(5000);
        _process.Dispose();
    }

    private bool Has(string topic) => Messages.Any(message => message.Topic == topic);

    private void Note(string? line)
    {
        if (line?.Split('|', 5) is [var topic, var qos, var retained, var properties, var payload])
        {
            lock (_messages)
            {
                _messages.Add(new(topic, qos[0] - '0', retained == "1", properties, payload));
            }
        }
    }
}
