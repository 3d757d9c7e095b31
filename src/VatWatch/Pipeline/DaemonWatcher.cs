using System.Collections.Concurrent;
using VatWatch.Alarms;
using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Daemon;
using VatWatch.Alarms.Rules;

namespace VatWatch.Pipeline;

/// <summary>
/// Watches the daemon itself: asks each of its parts at every beat how it is doing, and keeps the alarms about them. Driven by the watch
/// stage; only <see cref="NoteRestart"/> may be called from elsewhere.
/// </summary>
/// <param name="parts">Give what they say about themselves; must not wait.</param>
internal sealed class DaemonWatcher(IReadOnlyList<Func<IEnumerable<DaemonSignal>>> parts, AlarmSettings settings)
{
    /// <summary>A stage that has run this long since its restart is well again.</summary>
    private static readonly TimeSpan WellAgain = TimeSpan.FromMinutes(5);

    private readonly DaemonAlarmBoard _board = new(settings);
    private readonly ConcurrentQueue<DaemonSignal> _restarts = new();
    private TimeSpan? _lastRestart;

    /// <summary>Every alarm about the daemon that was ever raised.</summary>
    public IReadOnlyList<AlarmStatus> Alarms => _board.All;

    /// <summary>Takes alarms up where an earlier run left them.</summary>
    public void Restore(IEnumerable<AlarmStatus> statuses, Stamp now) => _board.Restore(statuses, now);

    /// <summary>A stage failed and is started again. Thread safe.</summary>
    public void NoteRestart(string stage, string fault) => _restarts.Enqueue(StageRestartedAlarm.Restarted(stage, fault));

    /// <summary>The watch stood still. Thread safe.</summary>
    public void NoteStandstill(TimeSpan time) => _restarts.Enqueue(StageRestartedAlarm.StoodStill(time));

    /// <summary>Asks every part, and lets time pass.</summary>
    public IReadOnlyList<AlarmChange> Tick(Stamp now)
    {
        var changes = new List<AlarmChange>();
        foreach (var signal in parts.SelectMany(part => part()).Concat(Restarts(now)))
        {
            changes.AddRange(_board.Signal(signal, now));
        }

        changes.AddRange(_board.Assess(now));
        return changes;
    }

    /// <summary>Carries out what a person asks; no change means that there was nothing to do.</summary>
    public IReadOnlyList<AlarmChange> Carry(AlarmAct act, Stamp now) => _board.Carry(act, now);

    private IEnumerable<DaemonSignal> Restarts(Stamp now)
    {
        while (_restarts.TryDequeue(out var restart))
        {
            _lastRestart = now.Monotonic;
            yield return restart;
        }

        if (now.Monotonic - _lastRestart > WellAgain)
        {
            _lastRestart = null;
            yield return StageRestartedAlarm.Well(WellAgain);
        }
    }
}
