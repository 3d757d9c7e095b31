using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms.Rules;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Configuration;
using VatWatch.Pipeline.Stages;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;
using VatWatch.Tests.Store;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class LearningRecorderTests
{
    private static readonly LearnedHeat Learned = new(1430, 35, 8.7, 0.6, 0.42, null, null, 47.2, 66, 2);
    private readonly Dictionary<VatId, GoodBaseline?> _baselines = [];
    private readonly LearnedHeatCache _cache = new();
    private readonly FakeTimeProvider _time = new(StoreRig.Dusk);

    [Fact]
    public async Task What_was_learned_can_be_written_before_its_time()
    {
        await using var rig = StoreRig.Start();
        _cache.Put(StoreRig.Madder, Learned);
        await Recorder(rig).KeepAsync(TestContext.Current.CancellationToken);

        Assert.Equal(Learned, Assert.Single(rig.Read(LearnedHeatTable.All)).Value);
        Assert.True(new VatWatcher(new VatPlan(SampleVats.MadderLane(), [], AlarmSettings.Default), DisplayUnits.Si).Restore(Learned));
    }

    [Fact]
    public async Task What_nights_were_like_is_kept_with_it()
    {
        await using var rig = StoreRig.Start();
        var usual = new KeptNights([new(41, 4.25, 2)], [], [new(3, 6.5, 1)], [null, 1.25], 0.97);
        _cache.Put(StoreRig.Madder, Learned with { Usual = usual });
        await Recorder(rig).KeepAsync(TestContext.Current.CancellationToken);

        Assert.Equivalent(usual, Assert.Single(rig.Read(LearnedHeatTable.All)).Value.Usual, strict: true);
    }

    [Fact]
    public async Task What_was_learned_is_kept_every_ten_minutes()
    {
        await using var rig = StoreRig.Start();
        _cache.Put(StoreRig.Madder, Learned);
        var recorder = Recorder(rig);
        await recorder.RunOnceAsync(TestContext.Current.CancellationToken);
        _time.Advance(TimeSpan.FromMinutes(9.9));
        await recorder.RunOnceAsync(TestContext.Current.CancellationToken);
        Assert.Empty(rig.Read(LearnedHeatTable.All));
        _time.Advance(TimeSpan.FromMinutes(0.1));
        await recorder.RunOnceAsync(TestContext.Current.CancellationToken);
        Assert.Single(rig.Read(LearnedHeatTable.All));
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
        var recorder = Recorder(rig);
        await recorder.RunOnceAsync(TestContext.Current.CancellationToken);
        Assert.InRange(_baselines[StoreRig.Madder]!.Readings, 38, 40);
        Assert.Equal(10.02, _baselines[StoreRig.Madder]!.PhAt45, 2);
        Assert.Equal(-702, _baselines[StoreRig.Madder]!.OrpMillivolts, 1.0);

        await rig.WriteAsync(work => SessionTable.Describe(work, StoreRig.Madder, session.Id, SessionDetails.None));
        await recorder.RunOnceAsync(TestContext.Current.CancellationToken);
        Assert.NotNull(_baselines[StoreRig.Madder]);
        recorder.LogBookChanged();
        await recorder.RunOnceAsync(TestContext.Current.CancellationToken);
        Assert.Null(_baselines[StoreRig.Madder]);
    }

    private LearningRecorder Recorder(StoreRig rig) =>
        new(rig.Store, [SampleVats.MadderLane()], _cache, (vat, baseline) => _baselines[vat] = baseline, _time);
}
