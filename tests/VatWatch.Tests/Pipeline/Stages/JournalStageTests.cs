using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Stages;
using VatWatch.Store;
using VatWatch.Tests.Notifications.Mqtt;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class JournalStageTests
{
    [Fact]
    public async Task A_disk_that_does_not_answer_keeps_nobody_from_being_told_for_longer_than_one_that_refuses()
    {
        var time = new FakeTimeProvider();
        var shown = new List<AlarmStatus>();
        var stage = new JournalStage(
            new HangingStore(), status => { lock (shown) { shown.Add(status); } }, new NoTopics(), new NotificationRouter([]), vat => vat.Value, DisplayUnits.Us, new WatchClock(time), time, NullLogger<JournalStage>.Instance);
        using var stop = new CancellationTokenSource();
        var running = stage.RunAsync(stop.Token);
        var status = RunningLink.Overheat(AlarmState.Unacknowledged);
        stage.Enqueue(new JournalEntry([new AlarmChange(AlarmState.Normal, status, status.Since, null, true)], null));

        await AdvanceUntilAsync(() => { lock (shown) { return shown.Count > 0; } }, TimeSpan.FromSeconds(5));

        Assert.Equal(status with { IsInMemory = true }, Assert.Single(shown));
        await stop.CancelAsync();
        await AdvanceUntilAsync(() => running.IsCompleted, TimeSpan.FromSeconds(30));
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);

        async Task AdvanceUntilAsync(Func<bool> happened, TimeSpan limit)
        {
            for (var passed = TimeSpan.Zero; !happened(); passed += Step)
            {
                Assert.True(passed < limit, $"it happened within {limit}");
                await Task.Delay(20, TestContext.Current.CancellationToken);
                time.Advance(Step);
            }
        }
    }

    [Fact]
    public async Task What_a_disk_that_refuses_does_not_take_is_said_to_be_held_in_memory_until_it_does()
    {
        var time = new FakeTimeProvider();
        var shown = new List<AlarmStatus>();
        var store = new RefusingStore();
        var stage = new JournalStage(
            store, status => { lock (shown) { shown.Add(status); } }, new NoTopics(), new NotificationRouter([]), vat => vat.Value, DisplayUnits.Us, new WatchClock(time), time, NullLogger<JournalStage>.Instance);
        using var stop = new CancellationTokenSource();
        var running = stage.RunAsync(stop.Token);
        var status = RunningLink.Overheat(AlarmState.Acknowledged);
        var fate = new TaskCompletionSource<JournalFate>();
        stage.Enqueue(new JournalEntry([new AlarmChange(AlarmState.Unacknowledged, status, status.Since, "Ada", false)], fate));

        var begun = time.GetUtcNow();
        await AdvanceUntilAsync(() => fate.Task.IsCompleted);
        Assert.InRange(time.GetUtcNow() - begun, TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(3.4));
        Assert.Equal(JournalFate.InMemory, await fate.Task);
        Assert.True(Assert.Single(shown).IsInMemory);
        store.Takes = true;
        await AdvanceUntilAsync(() => { lock (shown) { return shown.Count > 1; } });

        Assert.Equal([status with { IsInMemory = true }, status], shown);
        Assert.Single(store.Changes);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);

        async Task AdvanceUntilAsync(Func<bool> happened)
        {
            for (var steps = 0; !happened(); steps++)
            {
                Assert.True(steps < 1000, "it happened within 50 s");
                await Task.Delay(10, TestContext.Current.CancellationToken);
                time.Advance(Step / 2);
            }
        }
    }

    private static readonly TimeSpan Step = TimeSpan.FromSeconds(0.1);

    private sealed class HangingStore : IAlarmStore
    {
        public Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> tellings, IReadOnlyList<ContactEscalations> calls, CancellationToken cancel) =>
            Task.Delay(Timeout.Infinite, cancel);
    }

    private sealed class RefusingStore : IAlarmStore
    {
        public volatile bool Takes;

        public List<AlarmChange> Changes { get; } = [];

        public Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> tellings, IReadOnlyList<ContactEscalations> calls, CancellationToken cancel)
        {
            if (!Takes)
            {
                throw new StoreUnavailableException("The disk is full.");
            }

            Changes.AddRange(changes);
            return Task.CompletedTask;
        }
    }

    private sealed class NoTopics : ITopicPublisher
    {
        public void Enqueue(Measurement measurement)
        {
        }

        public void Enqueue(VatCondition condition)
        {
        }

        public void Enqueue(AlarmStatus status)
        {
        }
    }
}
