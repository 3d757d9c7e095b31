using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Notifications;

namespace VatWatch.Pipeline.Stages;

/// <summary>Where the watch stage's results go. No taker may wait.</summary>
/// <param name="Keep">Takes measurements to the store's queue.</param>
/// <param name="Publish">Takes measurements and conditions to the topics' queues.</param>
/// <param name="Remember">Takes conditions to the store's queue.</param>
/// <param name="Journal">Takes alarm changes to the disk, then to people.</param>
/// <param name="Learned">What was learned, for the disk to fetch.</param>
internal sealed record WatchOutputs(
    Func<Measurement, bool> Keep, ITopicPublisher Publish, LiveFeed Feed, Action<VatCondition> Remember, JournalStage Journal, LearnedHeatCache Learned)
{
    public void Take(Measurement measurement)
    {
        Keep(measurement);
        Feed.Show(measurement);
        Publish.Enqueue(measurement);
    }

    public void Take(VatCondition condition)
    {
        Remember(condition);
        if (Feed.Show(condition))
        {
            Publish.Enqueue(condition);
        }
    }

    public void Take(IReadOnlyList<AlarmChange> changes, TaskCompletionSource<JournalFate>? outcome = null)
    {
        if (changes.Count > 0)
        {
            Journal.Enqueue(new JournalEntry(changes, outcome));
        }
    }
}
