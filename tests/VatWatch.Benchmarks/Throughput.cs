using System.Diagnostics;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Alarms.Rules;
using VatWatch.Measurements;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Assembly;
using VatWatch.Pipeline.Configuration;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Store;
using VatWatch.Testing;

namespace VatWatch.Benchmarks;

/// <summary>
/// Readings a second through the whole line behind the probes — calibration, condition, alarms, live picture, topics at a real broker, store with
/// rollups — against a bare batched insert of as many rows.
/// </summary>
internal static class Throughput
{
    private static readonly Sweeps _time = new();

    private const int Vats = 10;
    private const int Readings = 400_000;

    /// <summary>Two of them are less than the bound of the line's own queue, so that none is dropped.</summary>
    private const int Chunk = 3500;

    /// <summary>Half of what the store holds, so that none is dropped.</summary>
    private const int MostWaiting = 50_000;

    public static async Task MeasureAsync(Table table)
    {
        using var studio = new BenchStudio();
        var bare = StoreSpeed.Bare(Path.Combine(studio.Folder, "bare.db"), Readings);
        var allocated = GC.GetTotalAllocatedBytes(precise: true);
        var line = await ThroughLineAsync(Path.Combine(studio.Folder, "data"));
        allocated = GC.GetTotalAllocatedBytes(precise: true) - allocated;
        table.Ratio($"time for {Readings:N0} readings through the whole line, bare batched insert", line, bare, "s", 1.35);
        table.Note("bytes allocated for a reading on its way through the whole line, start and topics counted", $"{Readings:N0} readings", $"{allocated / Readings} B");
        var (judged, kept) = Judged();
        table.Note("bytes allocated to judge a reading, on the watch's thread", $"its measurement, which is kept, is {kept} B of them", $"{judged} B");
    }

    /// <summary>What a reading costs before it is handed on, with a vat at rest and after an hour of its life; and what its measurement alone does.</summary>
    private static (long Judged, long Kept) Judged()
    {
        var watcher = new VatWatcher(new VatPlan(SampleVats.MadderLane("vat"), [], AlarmSettings.Default), DisplayUnits.Si);
        var probes = watcher.Vat.Probes;
        Measurement? last = null;
        Take(0, Chunk);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Take(Chunk, 2 * Chunk);
        var judged = GC.GetAllocatedBytesForCurrentThread() - before;
        before = GC.GetAllocatedBytesForCurrentThread();
        GC.KeepAlive(last! with { });
        return (judged / Chunk, GC.GetAllocatedBytesForCurrentThread() - before);

        void Take(int from, int to)
        {
            for (var number = from; number < to; number++)
            {
                var probe = probes[number % probes.Count];
                var at = TimeSpan.FromSeconds(5.0 * number / probes.Count);
                last = watcher.Accept(new Reading(probe.Vat, probe.Id, probe.Quantity, Sample.Good(ValueOf(number)), new Stamp(DateTimeOffset.UnixEpoch + at, at, true), TimeSpan.Zero)).Measurement;
            }
        }
    }

    private static async Task<double> ThroughLineAsync(string folder)
    {
        await using var broker = await MosquittoBroker.StartAsync();
        var plans = Enumerable.Range(0, Vats).Select(number => new VatPlan(SampleVats.MadderLane($"vat-{number}"), [], AlarmSettings.Default)).ToList();
        var watch = new WatchConfiguration
        {
            Site = "bench",
            Units = DisplayUnits.Si,
            DataFolder = folder,
            Store = new StoreOptions { WriteTimeout = TimeSpan.FromMinutes(1) },
            Buses = [],
            Vats = plans,
            DaemonAlarms = AlarmSettings.ReadDaemon(null),
        };
        var clock = new WatchClock(_time);
        await using var store = WatchStore.Open(folder, watch.Store, TimeProvider.System, NullLogger<WatchStore>.Instance);
        var mqtt = MqttOptions.Default with { IsBuiltin = false, Host = "127.0.0.1", Port = broker.Port };
        await using var line = WatchPipeline.Build(watch, mqtt, ContactTable.Usual(DisplayUnits.Si), null, store, clock, NullLoggerFactory.Instance);
        using var supervisor = line.Supervise(new Lifetime(), NullLogger<VatWatch.Pipeline.Supervision.StageSupervisor>.Instance);
        await supervisor.StartAsync(CancellationToken.None);
        try
        {
            await Eventually.TrueAsync(() => line.Link.State.Connected, "the broker is there");
            var took = await SendAllAsync(line, store, clock, [.. plans.SelectMany(plan => plan.Definition.Probes)]);
            return line.ReadingsDropped == 0 ? took : throw new InvalidOperationException($"{line.ReadingsDropped} readings were dropped; wanted none");
        }
        finally
        {
            await supervisor.StopAsync(CancellationToken.None);
        }
    }

    private static async Task<double> SendAllAsync(WatchPipeline line, WatchStore store, WatchClock clock, ProbeDefinition[] probes)
    {
        var began = Stopwatch.GetTimestamp();
        Reading? before = null;
        for (var sent = 0; sent < Readings; sent += Chunk)
        {
            var last = Send(line, clock, probes, sent, Math.Min(Chunk, Readings - sent));
            while (store.Health.Buffered > MostWaiting)
            {
                await Task.Delay(1);
            }

            // One chunk is worked on while the next is being handed over.
            if (before is { } sentBefore)
            {
                await ThroughAsync(line, sentBefore);
            }

            before = last;
        }

        await ThroughAsync(line, before!.Value);
        await store.FlushAsync(CancellationToken.None);
        return Stopwatch.GetElapsedTime(began).TotalSeconds;
    }

    /// <summary>Gives so many readings; returns the last.</summary>
    private static Reading Send(WatchPipeline line, WatchClock clock, ProbeDefinition[] probes, int from, int count)
    {
        Reading last = default;
        for (var number = from; number < from + count; number++)
        {
            var probe = probes[number % probes.Length];
            _time.Advance(5.0 / probes.Length);
            last = new Reading(probe.Vat, probe.Id, probe.Quantity, Sample.Good(ValueOf(number)), clock.Now(), TimeSpan.Zero);
            line.Enqueue(last);
        }

        return last;
    }

    /// <summary>Each value differs a little from the one before of the same probe, as a vat's do.</summary>
    private static double ValueOf(int number) => (number % 3) switch
    {
        0 => Math.Round(43 + Math.Sin(number / 30_000.0) + number / 30 % 7 / 100.0, 2),
        1 => Math.Round(9.9 + number / 30 % 5 / 1000.0, 3),
        _ => Math.Round(-690 + number / 30 % 11 / 10.0, 1),
    };

    private static async Task ThroughAsync(WatchPipeline line, Reading last)
    {
        while (line.Feed.Vats.First(vat => vat.Definition.Id == last.Vat).Latest.All(newest => newest.Probe != last.Probe || newest.Stamp.Monotonic < last.Stamp.Monotonic))
        {
            await Task.Delay(1);
        }
    }

    /// <summary>Five seconds for each round of the probes, so that values change as a vat's do; timers by the wall's clock.</summary>
    private sealed class Sweeps : TimeProvider
    {
        private static readonly DateTimeOffset Began = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);
        private long _ticks;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public void Advance(double seconds) => Interlocked.Add(ref _ticks, (long)(seconds * TimeSpan.TicksPerSecond));

        public override long GetTimestamp() => Interlocked.Read(ref _ticks);

        public override DateTimeOffset GetUtcNow() => Began.AddTicks(GetTimestamp());
    }

    private sealed class Lifetime : IHostApplicationLifetime
    {
        public CancellationToken ApplicationStarted => CancellationToken.None;

        public CancellationToken ApplicationStopping => CancellationToken.None;

        public CancellationToken ApplicationStopped => CancellationToken.None;

        public void StopApplication()
        {
        }
    }
}
