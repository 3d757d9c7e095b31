using VatWatch.Alarms.Rules;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Alarms;

/// <summary>
/// Every alarm of one vat. Pure: no I/O and no timers; the time is that of the stamps handed in, by their monotonic clock. Each transition
/// comes back as an <see cref="AlarmChange"/> for the caller to store and tell. Not thread safe.
/// </summary>
public sealed class AlarmBoard
{
    private static readonly IReadOnlyList<AlarmChange> None = [];

    private readonly VatEvidence _evidence;
    private readonly WatchedAlarm[] _alarms;
    private readonly Dictionary<ProbeId, WatchedAlarm[]> _byProbe;
    private readonly List<AlarmStatus> _unwatched = [];

    /// <summary>A board with every alarm in normal.</summary>
    public AlarmBoard(VatDefinition vat, AlarmSettings settings, DisplayUnits units)
    {
        _evidence = new(vat, settings);
        _alarms = [.. VatRules.For(new(vat, settings, units)).Where(rule => rule.Settings.Enabled).Select(rule => new WatchedAlarm(vat.Id, rule))];
        _byProbe = _evidence.Probes.ToDictionary(
            probe => probe.Definition.Id,
            probe => _alarms.Where(alarm => alarm.Rule.DependsOn(probe)).ToArray());
    }

    /// <summary>Every alarm as it stands, in whatever state.</summary>
    public IReadOnlyList<AlarmStatus> All => [.. _alarms.Select(alarm => alarm.Status)];

    /// <summary>Why an alarm exists and what to do about it; null when there is no such alarm.</summary>
    public AlarmRationale? RationaleOf(AlarmName alarm) => Find(alarm)?.Rule.Rationale;

    /// <summary>
    /// Takes up every alarm as the journal last had it. What stood is taken to stand until the evidence says otherwise; one that the
    /// configuration no longer knows is closed by the next <see cref="Assess"/>, so that it does not vanish unsaid.
    /// </summary>
    public void Restore(IEnumerable<AlarmStatus> statuses, Stamp now)
    {
        _evidence.MoveTo(now);
        foreach (var status in statuses)
        {
            if (Find(status.Alarm) is { } alarm)
            {
                alarm.Restore(status, now);
            }
            else if (status.State != AlarmState.Normal)
            {
                _unwatched.Add(status);
            }
        }
    }

    /// <summary>Takes in a measurement and judges at once what depends on it. One of another vat, or older than what is known, changes nothing.</summary>
    public IReadOnlyList<AlarmChange> Accept(Measurement measurement)
    {
        if (_evidence.Find(measurement.Probe) is not { } probe)
        {
            return [];
        }

        _evidence.MoveTo(measurement.Stamp);
        return probe.Accept(measurement) ? Observe(_byProbe[measurement.Probe]) : [];
    }

    /// <summary>Takes in the newest condition and the time: delays, silence, forecasts. Wanted about once a second.</summary>
    public IReadOnlyList<AlarmChange> Assess(VatCondition condition, Stamp now)
    {
        _evidence.MoveTo(now);
        _evidence.Condition = condition;
        var changes = Observe(_alarms);
        if (_unwatched.Count == 0)
        {
            return changes;
        }

        AlarmChange[] all = [.. _unwatched.Select(Closed), .. changes];
        _unwatched.Clear();
        return all;
    }

    /// <summary>Somebody has seen an alarm; empty when there is nothing to acknowledge.</summary>
    public IReadOnlyList<AlarmChange> Acknowledge(Acknowledgement act, Stamp now) => Do(act.Alarm, now, (alarm, at) => alarm.Acknowledge(act.By, at));

    /// <summary>Ends a latched alarm that was acknowledged; empty when there is none.</summary>
    public IReadOnlyList<AlarmChange> Reset(AlarmName alarm, string by, Stamp now) => Do(alarm, now, (it, at) => it.Reset(by, at));

    /// <summary>Sets an alarm aside for a time, cut down to the longest allowed; empty when it is set aside already or unknown.</summary>
    /// <exception cref="ArgumentException">No reason was given, or no time.</exception>
    public IReadOnlyList<AlarmChange> Shelve(Shelving act, Stamp now)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(act.Reason);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(act.For, TimeSpan.Zero);
        return Do(act.Alarm, now, (alarm, at) => alarm.Shelve(act, at));
    }

    /// <summary>Takes an alarm off the shelf before its time; empty when it is not shelved.</summary>
    public IReadOnlyList<AlarmChange> Unshelve(AlarmName alarm, string by, Stamp now) => Do(alarm, now, (it, at) => it.Unshelve(by, at));

    /// <summary>Takes an alarm out of service until somebody returns it; empty when it is so already or unknown.</summary>
    /// <exception cref="ArgumentException">No reason was given.</exception>
    public IReadOnlyList<AlarmChange> TakeOutOfService(AlarmName alarm, string reason, string by, Stamp now)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(reason);
        return Do(alarm, now, (it, at) => it.TakeOutOfService(reason, by, at));
    }

    /// <summary>Puts an alarm back into service; empty when it is not out of it.</summary>
    public IReadOnlyList<AlarmChange> ReturnToService(AlarmName alarm, string by, Stamp now) => Do(alarm, now, (it, at) => it.ReturnToService(by, at));

    private IReadOnlyList<AlarmChange> Observe(WatchedAlarm[] alarms)
    {
        List<AlarmChange>? changes = null;
        foreach (var alarm in alarms)
        {
            if (alarm.Observe(_evidence) is { } change)
            {
                (changes ??= []).Add(change);
            }
        }

        return (IReadOnlyList<AlarmChange>?)changes ?? None;
    }

    private IReadOnlyList<AlarmChange> Do(AlarmName name, Stamp now, Func<WatchedAlarm, Stamp, AlarmChange?> act)
    {
        _evidence.MoveTo(now);
        return Find(name) is { } alarm && act(alarm, _evidence.Now) is { } change ? [change] : [];
    }

    private WatchedAlarm? Find(AlarmName name) => Array.Find(_alarms, alarm => alarm.Rule.Name == name);

    private AlarmChange Closed(AlarmStatus status) => new(
        status.State,
        status with
        {
            State = AlarmState.Normal,
            Since = _evidence.Now,
            Text = $"The alarm {status.Alarm} of {_evidence.Vat.Name} is no longer watched: the configuration has changed.",
        },
        _evidence.Now,
        By: null,
        Announce: status.IsActive);
}
