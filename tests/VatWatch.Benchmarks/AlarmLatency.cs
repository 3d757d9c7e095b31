using System.Diagnostics;
using System.Globalization;
using MQTTnet;
using MQTTnet.Protocol;
using VatWatch.Testing;

namespace VatWatch.Benchmarks;

/// <summary>From the crossing value leaving on the serial line to the alarm at a subscriber, against a bare QoS 1 round trip through the same broker.</summary>
internal static class AlarmLatency
{
    private const int Rounds = 40;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    public static async Task MeasureAsync(Table table)
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var client = new MqttClientFactory().CreateMqttClient();
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).Build());
        var arrivals = new Arrivals();
        client.ApplicationMessageReceivedAsync += arrivals.TakeAsync;
        await client.SubscribeAsync("#", MqttQualityOfServiceLevel.AtLeastOnce);

        var bare = await BareAsync(client, arrivals);
        var alarm = await AlarmAsync(broker.Port, arrivals);
        table.Ratio("crossing value on the serial line to alarm at a subscriber", alarm, bare, "ms", 5);
    }

    private static async Task<double> BareAsync(IMqttClient client, Arrivals arrivals)
    {
        var times = new List<double>();
        for (var round = 0; round < Rounds * 5; round++)
        {
            var arrival = arrivals.Expect("bare", "x");
            var left = Stopwatch.GetTimestamp();
            await client.PublishStringAsync("bare", "x", MqttQualityOfServiceLevel.AtLeastOnce);
            times.Add(Stopwatch.GetElapsedTime(left, await arrival.WaitAsync(Patience)).TotalMilliseconds);
        }

        return Median(times);
    }

    private static async Task<double> AlarmAsync(int port, Arrivals arrivals)
    {
        using var studio = new BenchStudio();
        using var line = new PseudoTerminal();
        studio.WriteStreaming(line.FarEnd, port);
        using var daemon = ChildProcess.Start(Programs.Daemon, "run", "--config", studio.Config);
        var topic = "vatwatch/bench/still/alarm/overheat";
        await arrivals.Expect("vatwatch/bench/still/alarm/overheat", "normal").WaitAsync(Patience);
        var times = new List<double>();
        for (var round = 0; round < Rounds; round++)
        {
            for (var warm = 0; warm < 5; warm++)
            {
                line.WriteLine("T=45.00C");
                await Task.Delay(130);
            }

            // Longer than two periods of the probe, so that it waits for the line and the figure holds none of its own period.
            await Task.Delay(250);
            var arrival = arrivals.Expect(topic, "\"unacknowledged\"");
            var left = Stopwatch.GetTimestamp();
            line.WriteLine(string.Create(CultureInfo.InvariantCulture, $"T={50 + round * 0.01:0.00}C"));
            times.Add(Stopwatch.GetElapsedTime(left, await arrival.WaitAsync(Patience)).TotalMilliseconds);
        }

        return Median(times[5..]);
    }

    private static double Median(List<double> times) => times.Order().ElementAt(times.Count / 2);

    /// <summary>Notes when the awaited message comes.</summary>
    private sealed class Arrivals
    {
        private volatile Awaited? _awaited;

        public Task<long> Expect(string topic, string holds)
        {
            var awaited = new Awaited(topic, holds, new TaskCompletionSource<long>(TaskCreationOptions.RunContinuationsAsynchronously));
            _awaited = awaited;
            return awaited.Arrival.Task;
        }

        public Task TakeAsync(MqttApplicationMessageReceivedEventArgs message)
        {
            var now = Stopwatch.GetTimestamp();
            if (_awaited is { } awaited
                && message.ApplicationMessage.Topic == awaited.Topic
                && message.ApplicationMessage.ConvertPayloadToString().Contains(awaited.Holds, StringComparison.Ordinal))
            {
                awaited.Arrival.TrySetResult(now);
            }

            return Task.CompletedTask;
        }

        private sealed record Awaited(string Topic, string Holds, TaskCompletionSource<long> Arrival);
    }
}
