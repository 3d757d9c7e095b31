using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Daemon;

/// <summary>
/// Alarms about the daemon itself, fed by what its parts say. An alarm exists from the first signal on. Pure and not thread safe, like
/// <see cref="AlarmBoard"/>.
/// </summary>
public sealed class DaemonAlarmBoard(AlarmSettings settings)
{
    /// <summary>An alarm from before a restart of which no part speaks for this long has lost whatever raised it.</summary>
    private static readonly TimeSpan Unspoken = TimeSpan.FromMinutes(10);

    private static readonly Dictionary<string, AlarmRationale> Rationales = AlarmKinds.OfDaemon.ToDictionary(kind => kind.Word, kind => kind.Rationale!);

    private readonly SortedDictionary<string, Entry> _alarms = new(StringComparer.Ordinal);

    /// <summary>A board with the usual settings.</summary>
    public DaemonAlarmBoard()
        : this(AlarmSettings.ReadDaemon(null))
    {
    }

    /// <summary>Every alarm that was ever signalled, in whatever state.</summary>
    public IReadOnlyList<AlarmStatus> All => [.. _alarms.Values.Select(entry => entry.Alarm.Status)];

    /// <summary>Why an alarm exists and what to do about it; null when it was never signalled.</summary>
    public AlarmRationale? RationaleOf(AlarmName alarm) => Find(alarm)?.Rule.Rationale;

    /// <summary>Takes up every alarm as the journal last had it; kinds that this version does not know, and what this run has raised already, are left out.</summary>
    public void Restore(IEnumerable<AlarmStatus> statuses, Stamp now)
    {
        foreach (var status in statuses.Where(status => settings.Knows(status.Alarm.Kind)))
        {
            if (Open(status.Alarm, now) is { Alarm.HasChanged: false } entry)
            {
                entry.Alarm.Restore(status, now);
                entry.UnspokenSince = now.Monotonic;
            }
        }
    }

    /// <summary>Takes a signal in and judges it at once.</summary>
    /// <exception cref="ArgumentException">There is no such kind of alarm.</exception>
    public IReadOnlyList<AlarmChange> Signal(DaemonSignal signal, Stamp now)
    {
        if (!settings.Knows(signal.Alarm.Kind))
        {
            throw new ArgumentException($"\"{signal.Alarm}\" is no alarm of the daemon", nameof(signal));
        }

        if (Open(signal.Alarm, now) is not { } entry)
        {
            return [];
        }

        entry.UnspokenSince = null;
        entry.Rule.Take(signal);
        return Changes(entry.Alarm.Take(entry.Rule.Evaluate(), now));
    }

    /// <summary>Lets time pass: delays, reminders, shelves. Wanted about once a second.</summary>
    public IReadOnlyList<AlarmChange> Assess(Stamp now)
    {
        List<AlarmChange> changes = [];
        foreach (var entry in _alarms.Values)
        {
            if (now.Monotonic - entry.UnspokenSince >= Unspoken)
            {
                entry.UnspokenSince = null;
                entry.Rule.Take(new(entry.Rule.Name, false, $"Nothing has spoken of {entry.Rule.Name} since VatWatch was started again."));
            }

            if (entry.Alarm.Take(entry.Rule.Evaluate(), now) is { } change)
            {
                changes.Add(change);
            }
        }

        return changes;
    }

    /// <summary>Carries out what a person asks; empty when there is no such alarm or nothing to do.</summary>
    public IReadOnlyList<AlarmChange> Carry(AlarmAct act, Stamp now) =>
        act.Kind == AlarmActKind.Note && act.Alarm == AlarmName.Note ? [AlarmChange.NoteOf(act, now)] : Changes(Find(act.Alarm)?.Alarm.Carry(act, now));

    private static IReadOnlyList<AlarmChange> Changes(AlarmChange? change) => change is null ? [] : [change];

    private Entry? Find(AlarmName name) => _alarms.GetValueOrDefault(name.Value);

    private Entry? Open(AlarmName name, Stamp now)
    {
        var rule = settings.For(name.Kind);
        if (!rule.Enabled || _alarms.ContainsKey(name.Value))
        {
            return Find(name);
        }

        var made = new DaemonRule(name, rule, Rationales[name.Kind]);
        var alarm = new WatchedAlarm(VatId.Daemon, made);
        alarm.Begin(now);
        return _alarms[name.Value] = new(made, alarm);
    }

    private sealed class Entry(DaemonRule rule, WatchedAlarm alarm)
    {
        public DaemonRule Rule => rule;

        public WatchedAlarm Alarm => alarm;

        /// <summary>When it was taken up from before a restart; null once a part has spoken of it.</summary>
        public TimeSpan? UnspokenSince { get; set; }
    }
}

/// <summary>What a part of the daemon says about itself.</summary>
/// <param name="Alarm">The alarm, for example <c>store-fault</c>, <c>bus-lost.bench</c> or <c>calibration-due.alkali</c>.</param>
/// <param name="Active">Whether the trouble is there; null when that cannot be told just now, which keeps what stands.</param>
/// <param name="Sentence">One plain sentence, fit for a lock screen, about the trouble or about its end.</param>
public sealed record DaemonSignal(AlarmName Alarm, bool? Active, string Sentence)
{
    /// <summary>Priority of what is not guarded meanwhile, where that is known.</summary>
    public AlarmPriority? Guards { get; init; }
}
