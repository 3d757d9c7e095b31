using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Rules;
using VatWatch.Calibration;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Configuration;
using VatWatch.Probes.Simulation;
using VatWatch.Readings;
using VatWatch.Sessions.Entries;

namespace VatWatch.Testing.Nights;

/// <summary>What a <see cref="DemoNight"/> left behind: the simulator's probes and the watch itself, by the seed the same every time.</summary>
/// <param name="Measurements">In order of time.</param>
/// <param name="Changes">Of alarms, in order of time.</param>
public sealed record DemoNightRun(IReadOnlyList<Measurement> Measurements, IReadOnlyList<AlarmChange> Changes)
{
    private static readonly TimeSpan Beat = TimeSpan.FromSeconds(5);

    /// <summary>The vat of all nights: as in the sample configuration.</summary>
    public static VatDefinition Vat { get; } = SampleVats.MadderLane() with
    {
        HeaterWatts = null,
        Probes =
        [
            SampleVats.Probe("madder-lane", "liquor", Quantity.Temperature, 5),
            SampleVats.Probe("madder-lane", "liquor-ph", Quantity.Ph, 30),
            SampleVats.Probe("madder-lane", "liquor-orp", Quantity.Orp, 10),
        ],
    };

    /// <summary>Lets a night happen.</summary>
    public static async Task<DemoNightRun> OfAsync(DemoNight night)
    {
        var time = new FakeTimeProvider(night.Evening);
        var clock = new WatchClock(time);
        var bus = new SimulatedVatBus(new BusId("demo"), night.Scenario, clock);
        var probes = Vat.Probes.Select(probe => new SimulatedProbe(bus, probe)).ToArray();
        foreach (var probe in Vat.Probes)
        {
            bus.Hang(probe, Vat);
        }

        var watcher = new VatWatcher(new VatPlan(Vat, [], AlarmSettings.Default), DisplayUnits.Us, new CalibrationCache());
        var acts = new Queue<(TimeSpan At, EntryDraft Draft)>(night.Told);
        var (measurements, changes) = (new List<Measurement>(), new List<AlarmChange>());
        for (var at = TimeSpan.Zero; at <= night.Length; at += Beat, time.Advance(Beat))
        {
            while (acts.TryPeek(out var act) && act.At <= at)
            {
                if (Entry(acts.Dequeue().Draft, clock.Now()).Act() is { } told)
                {
                    watcher.Note(told);
                }
            }

            foreach (var probe in probes.Where(probe => at.Ticks % probe.Definition.Every.Ticks == 0))
            {
                var sample = await probe.TakeSampleAsync(CancellationToken.None);
                var (measurement, heard) = watcher.Accept(new Reading(Vat.Id, probe.Definition.Id, probe.Definition.Quantity, sample, clock.Now(), TimeSpan.Zero));
                measurements.Add(measurement);
                changes.AddRange(heard);
            }

            changes.AddRange(watcher.Tick(clock.Now()).Changes);
            if (night.Acknowledged == at)
            {
                changes.AddRange(watcher.Alarms.Where(alarm => alarm.IsActive).ToArray()
                    .SelectMany(alarm => watcher.Carry(new AlarmAct(AlarmActKind.Acknowledge, Vat.Id, alarm.Alarm, DemoNight.Dyer, "page"), clock.Now())));
            }
        }

        return new DemoNightRun(measurements, changes);
    }

    private static SessionEntry Entry(EntryDraft draft, Stamp at) => new() { Id = 0, Vat = draft.Vat, Kind = draft.Kind, At = at, By = draft.By, Material = draft.Material, Amount = draft.Amount };
}
