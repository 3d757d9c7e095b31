using System.Diagnostics;
using System.Globalization;
using Microsoft.Data.Sqlite;
using MQTTnet;
using MQTTnet.Protocol;
using VatWatch.Testing;

namespace VatWatch.Benchmarks;

/// <summary>
/// From the crossing value leaving on the serial line to the alarm at a subscriber. The floors are taken in turn with it, after the same pause, so
/// that processor and threads have slept as long: a bare QoS 1 round trip through the same broker, and one synchronous commit to the same disk,
/// without which nobody is told.
/// </summary>
internal static class AlarmLatency
{
    private const int Rounds = 40;
    private const int Skipped = 5;
    private const string Topic = "vatwatch/bench/still/alarm/overheat";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    /// <summary>Longer than two periods of the probe, so that it waits for the line and the figure holds none of its own period.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(250);

    public static async Task MeasureAsync(Table table)
    {
        await using var broker = await MosquittoBroker.StartAsync();
        using var client = new MqttClientFactory().CreateMqttClient();
        await client.ConnectAsync(new MqttClientOptionsBuilder().WithTcpServer("127.0.0.1", broker.Port).Build());
        var arrivals = new Arrivals();
        client.ApplicationMessageReceivedAsync += arrivals.TakeAsync;
        await client.SubscribeAsync("#", MqttQualityOfServiceLevel.AtLeastOnce);

        using var studio = new BenchStudio();
        using var line = new PseudoTerminal();
        using var disk = new Disk(Path.Combine(studio.Folder, "bare.db"));
        studio.WriteStreaming(line.FarEnd, broker.Port);
        using var daemon = ChildProcess.Start(Programs.Daemon, "run", "--config", studio.Config);
        await arrivals.Expect(Topic, "normal").WaitAsync(Patience);
        var (alarms, trips, commits) = (new List<double>(), new List<double>(), new List<double>());
        for (var round = 0; round < Rounds; round++)
        {
            for (var warm = 0; warm < 5; warm++)
            {
                line.WriteLine("T=45.00C");
                await Task.Delay(130);
            }

            await Task.Delay(Pause);
            alarms.Add(await TimeAsync(arrivals.Expect(Topic, "\"unacknowledged\""), () =>
            {
                line.WriteLine(string.Create(CultureInfo.InvariantCulture, $"T={50 + round * 0.01:0.00}C"));
                return Task.CompletedTask;
            }));
            await Task.Delay(Pause);
            trips.Add(await TimeAsync(arrivals.Expect("bare", "x"), () => client.PublishStringAsync("bare", "x", MqttQualityOfServiceLevel.AtLeastOnce)));
            await Task.Delay(Pause);
            commits.Add(disk.Commit());
        }

        var (alarm, trip, commit) = (Median(alarms), Median(trips), Median(commits));
        table.Ratio("value on the serial line to alarm at a subscriber, bare QoS 1 round trip", alarm, trip, "ms", 3);
        table.Ratio("the same, bare round trip and one synchronous commit", alarm, trip + commit, "ms", 2);
    }

    private static async Task<double> TimeAsync(Task<long> arrival, Func<Task> send)
    {
        var left = Stopwatch.GetTimestamp();
        await send();
        return Stopwatch.GetElapsedTime(left, await arrival.WaitAsync(Patience)).TotalMilliseconds;
    }

    private static double Median(List<double> times) => times.Skip(Skipped).Order().ElementAt((times.Count - Skipped) / 2);

    /// <summary>A small database of the store's settings on the store's disk.</summary>
    private sealed class Disk : IDisposable
    {
        private readonly SqliteConnection _connection;
        private readonly SqliteCommand _insert;

        public Disk(string file)
        {
            _connection = new SqliteConnection($"Data Source={file};Pooling=False");
            _connection.Open();
            using var make = _connection.CreateCommand();
            make.CommandText = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE told (id INTEGER PRIMARY KEY, sentence TEXT)";
            make.ExecuteNonQuery();
            _insert = _connection.CreateCommand();
            _insert.CommandText = "INSERT INTO told (sentence) VALUES ('The vat is above its limit.')";
        }

        /// <summary>Milliseconds of one commit.</summary>
        public double Commit()
        {
            var began = Stopwatch.GetTimestamp();
            _insert.ExecuteNonQuery();
            return Stopwatch.GetElapsedTime(began).TotalMilliseconds;
        }

        public void Dispose()
        {
            _insert.Dispose();
            _connection.Dispose();
        }
    }

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
