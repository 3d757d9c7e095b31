using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Stages;
using VatWatch.Sessions;
using VatWatch.Testing;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class LearningStageTests
{
    private static readonly LearnedHeat Learned = new(1430, 35, 8.7, 0.6, 0.42, null, null, 47.2, 66, 2);
    private readonly Dictionary<VatId, GoodBaseline?> _baselines = [];
    private readonly LearnedHeatCache _shelf = new();
    private readonly FakeTimeProvider _time = new(StoreRig.Dusk);

    [Fact]
    public async Task What_was_learned_is_on_the_disk_when_the_watch_stops()
    {
        await using var rig = StoreRig.Start();
        _shelf.Put(StoreRig.Madder, Learned);
        using var stop = new CancellationTokenSource();
        var running = Stage(rig).RunAsync(stop.Token);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);

        Assert.Equal(Learned, Assert.Single(rig.Read(LearnedHeatTable.All)).Value);
        Assert.True(new VatWatcher(new VatPlan(SampleVats.MadderLane(), [], AlarmSettings.Default), DisplayUnits.Si).Restore(Learned));
    }

    [Fact]
    public async Task What_was_learned_is_kept_every_ten_minutes()
    {
        await using var rig = StoreRig.Start();
        _shelf.Put(StoreRig.Madder, Learned);
        using var stop = new CancellationTokenSource();
        var running = Stage(rig).RunAsync(stop.Token);
        await Eventually.TrueAsync(() =>
        {
            _time.Advance(TimeSpan.FromSeconds(30));
            return rig.Read(LearnedHeatTable.All).Count == 1;
        }, "the learned heat was kept");
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        Assert.InRange(_time.GetUtcNow() - StoreRig.Dusk, TimeSpan.FromMinutes(9.5), TimeSpan.FromMinutes(60));
    }

    [Fact]
    public async Task Sessions_marked_good_make_a_baseline_and_taking_the_mark_away_unmakes_it()
    {
        await using var rig = StoreRig.Start();
        await rig.OfferAsync(Enumerable.Range(0, 40 * 6).SelectMany(i => new[]
        {
            StoreRig.Reading(10 * i, 45, "liquor"),
            StoreRig.Reading(10 * i + 1, 10.02, "liquor-ph", measures: Quantity.Ph),
            StoreRig.Reading(10 * i + 2, -702, "liquor-orp", measures: Quantity.Orp),
        }));
        var session = await rig.WriteAsync(work =>
        {
            var started = SessionTable.Start(
                work, StoreRig.Madder, new(2031, 3, 14), new Stamp(StoreRig.Dusk, TimeSpan.Zero, true), "anyone", new(null, null, null, Verdict.Good));
            SessionTable.End(work, StoreRig.Madder, started.Id, StoreRig.Dusk.AddMinutes(40));
            return started;
        });
        using var stop = new CancellationTokenSource();
        var stage = Stage(rig);
        var running = stage.RunAsync(stop.Token);
        await Eventually.TrueAsync(() => _baselines.GetValueOrDefault(StoreRig.Madder) is { } baseline && baseline.Readings is >= 38 and <= 40, "a baseline of some 40 minutes");
        Assert.Equal(10.02, _baselines[StoreRig.Madder]!.PhAt45, 2);
        Assert.Equal(-702, _baselines[StoreRig.Madder]!.OrpMillivolts, 1.0);

        await rig.WriteAsync(work => SessionTable.Describe(work, StoreRig.Madder, session.Id, SessionDetails.None));
        stage.LogBookChanged();
        await Eventually.TrueAsync(() =>
        {
            _time.Advance(TimeSpan.FromSeconds(5));
            return _baselines[StoreRig.Madder] is null;
        }, "the baseline went");
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
    }

    private LearningStage Stage(StoreRig rig) =>
        new(rig.Store, [SampleVats.MadderLane()], _shelf, (vat, baseline) => _baselines[vat] = baseline, _time, NullLogger<LearningStage>.Instance);
}
