using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Stages;
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

        Assert.Equal(status, Assert.Single(shown));
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

    private static readonly TimeSpan Step = TimeSpan.FromSeconds(0.1);

    private sealed class HangingStore : IAlarmStore
    {
        public Task AppendAsync(IReadOnlyList<AlarmChange> changes, IReadOnlyList<Message> tellings, IReadOnlyList<ContactEscalations> calls, CancellationToken cancel) =>
            Task.Delay(Timeout.Infinite, cancel);
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
