using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Peers;
using VatWatch.Testing;
using VatWatch.Tests.Notifications.Mqtt;

namespace VatWatch.Tests.Notifications.Peers;

/// <summary>Listening for the watch of hill-studio on a real mosquitto.</summary>
[Trait("Starts", "processes")]
public sealed class PeerMonitorTests
{
    private static readonly MqttTimings Quick = RunningLink.Short with { Heartbeat = TimeSpan.FromMilliseconds(100) };

    [Fact]
    public async Task A_watch_that_beats_is_not_silent_and_one_that_stops_judging_is()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        await using var ear = new Ear(broker.Port, TimeSpan.FromSeconds(1.5));
        Assert.Null(ear.Watch.Verdict.Silent);
        await using var link = new RunningLink(RunningLink.To(broker.Port), Quick);
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == false, "it is heard");
        link.IsWatching = false;
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == true, "its silence is noticed");
        Assert.StartsWith("The watch of hill-studio has been silent for ", ear.Watch.Verdict.Sentence, StringComparison.Ordinal);
        link.IsWatching = true;
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == false, "it is heard again");
    }

    [Fact]
    public async Task A_watch_that_loses_its_connection_or_takes_leave_is_known_from_the_status_at_once()
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var network = new TcpRelay(broker.Port);
        await using var ear = new Ear(broker.Port, TimeSpan.FromMinutes(10));
        var link = new RunningLink(RunningLink.To(network.Port), Quick with { FirstRetry = TimeSpan.FromSeconds(2) });
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == false, "it is heard");
        network.Cut();
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == true, "the will says it");
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == false, "it is back");
        await link.DisposeAsync();
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == true, "its leave says it");
        Assert.Contains("its broker says that it is offline", ear.Watch.Verdict.Sentence, StringComparison.Ordinal);

        await using var late = new Ear(broker.Port, TimeSpan.FromMinutes(10), "other-shed");
        await Eventually.TrueAsync(() => late.Watch.Verdict.Silent == true, "who comes later learns it from the retained status");
    }

    [Fact]
    public async Task A_broker_that_is_not_there_is_silence_too_and_is_named()
    {
        var port = FreePort.Next();
        await using var ear = new Ear(port, TimeSpan.FromSeconds(1));
        await Eventually.TrueAsync(() => ear.Watch.Verdict.Silent == true, "it is silent");
        Assert.Contains($"its broker mqtt://127.0.0.1:{port} cannot be used: nothing listens there", ear.Watch.Verdict.Sentence, StringComparison.Ordinal);
    }

    private sealed class Ear : IAsyncDisposable
    {
        private readonly CancellationTokenSource _stop = new();
        private readonly Task _run;

        public Ear(int port, TimeSpan silentAfter, string site = "far-shed")
        {
            Watch = new(new("hill-studio", RunningLink.To(port), silentAfter), site, Quick, TimeProvider.System, NullLogger.Instance);
            _run = Watch.RunAsync(_stop.Token);
        }

        public PeerMonitor Watch { get; }

        public async ValueTask DisposeAsync()
        {
            await _stop.CancelAsync();
            await _run.WaitAsync(TimeSpan.FromSeconds(15)).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            _stop.Dispose();
        }
    }
}
