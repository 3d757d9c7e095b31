using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Lifecycle;
using VatWatch.Alarms.Rules;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Plans.Warm;

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
    private readonly Dictionary<ProbeId, WatchedProbe> _byProbe;
    private readonly List<(AlarmStatus Status, string Because, bool Announce)> _left = [];

    /// <summary>A board with every alarm in normal; <paramref name="isBusLost"/> says whether the alarm of a bus speaks for its probes.</summary>
    public AlarmBoard(VatDefinition vat, AlarmSettings settings, Func<BusId, bool>? isBusLost = null)
    {
        _evidence = new(vat, settings, isBusLost);
        _alarms = [.. AlarmKinds.OfVats.SelectMany(kind => kind.RulesFor(new(vat, settings))).Where(rule => rule.Settings.Enabled).Select(rule => new WatchedAlarm(vat.Id, rule))];
        _byProbe = _evidence.Probes.ToDictionary(
            probe => probe.Definition.Id,
            probe => new WatchedProbe(probe, [.. _alarms.Where(alarm => alarm.Rule.DependsOn(probe))]));
    }

    /// <summary>The heater that a kept plan wants on; null when no plan does.</summary>
    public HeaterDue? HeaterDue
    {
        get => _evidence.HeaterDue;
        set => _evidence.HeaterDue = value;
    }

    /// <summary>Every alarm as it stands, in whatever state.</summary>
    public IReadOnlyList<AlarmStatus> All => [.. _alarms.Select(alarm => alarm.Status)];

    /// <summary>Why an alarm exists and what to do about it; null when there is no such alarm.</summary>
    public AlarmRationale? RationaleOf(AlarmName alarm) => Find(alarm)?.Rule.Rationale;

    /// <summary>
    /// Takes up every alarm as the journal last had it. What stood is taken to stand until the evidence says otherwise; one that the
    /// configuration no longer knows is closed by the next <see cref="Assess"/>, so that it does not vanish unsaid. What this run has raised already stands as it does.
    /// </summary>
    public void Restore(IEnumerable<AlarmStatus> statuses, Stamp now)
    {
        MoveTo(now);
        foreach (var status in statuses)
        {
            if (Find(status.Alarm) is { } alarm)
            {
                if (!alarm.HasChanged)
                {
                    alarm.Restore(status, now);
                }
            }
            else if (status.State != AlarmState.Normal)
            {
                _left.Add((status, "is no longer watched: the configuration has changed", status.IsActive));
            }
        }
    }

    /// <summary>Takes up nothing: the vat itself is another one. What stood in the journal is closed there by the next <see cref="Assess"/>, and nobody is told.</summary>
    public void BeginAnew(IEnumerable<AlarmStatus> statuses, Stamp now)
    {
        MoveTo(now);
        _left.AddRange(statuses.Where(status => status.State != AlarmState.Normal).Select(status => (status, "is over: the simulated vat was begun anew", false)));
    }

    /// <summary>Takes in a measurement and judges at once what depends on it. One of another vat, or older than what is known, changes nothing.</summary>
    public IReadOnlyList<AlarmChange> Accept(Measurement measurement)
    {
        if (!_byProbe.TryGetValue(measurement.Probe, out var known))
        {
            return None;
        }

        MoveTo(measurement.Stamp);
        return known.Probe.Accept(measurement) ? Observe(known.Alarms) : None;
    }

    /// <summary>Takes in the newest condition and the time: delays, silence, forecasts. Wanted about once a second.</summary>
    public IReadOnlyList<AlarmChange> Assess(VatCondition condition, Stamp now)
    {
        MoveTo(now);
        _evidence.Condition = condition;
        var changes = Observe(_alarms);
        if (_left.Count == 0)
        {
            return changes;
        }

        AlarmChange[] all = [.. _left.Select(left => Closed(left.Status, left.Because, left.Announce)), .. changes];
        _left.Clear();
        return all;
    }

    /// <summary>Carries out what a person asks; empty when there is no such alarm or nothing to do.</summary>
    public IReadOnlyList<AlarmChange> Carry(AlarmAct act, Stamp now)
    {
        MoveTo(now);
        if (act.Kind == AlarmActKind.Note && act.Alarm == AlarmName.Note)
        {
            return [AlarmChange.NoteOf(act, _evidence.Now)];
        }

        return Find(act.Alarm)?.Carry(act, _evidence.Now) is { } change ? [change] : [];
    }

    /// <summary>Nothing was read until now, because the watch stood still: probes are given their time of silence anew.</summary>
    public void Resume(Stamp now)
    {
        MoveTo(now);
        _evidence.Resumed = now.Monotonic;
    }

    private void MoveTo(Stamp now)
    {
        if (!_evidence.HasBegun)
        {
            foreach (var alarm in _alarms)
            {
                alarm.Begin(now);
            }
        }

        _evidence.MoveTo(now);
    }

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

    /// <summary>A probe's evidence, and the alarms that its measurements can change at once.</summary>
    private sealed record WatchedProbe(ProbeEvidence Probe, WatchedAlarm[] Alarms);

    private WatchedAlarm? Find(AlarmName name) => Array.Find(_alarms, alarm => alarm.Rule.Name == name);

    private AlarmChange Closed(AlarmStatus status, string because, bool announce) => new(
        status.State,
        status with
        {
            State = AlarmState.Normal,
            Since = _evidence.Now,
            Action = WatchedAlarm.ActionWhenGone(AlarmState.Normal, isSeen: false),
            Text = new($"The alarm {status.Alarm.Value} of {_evidence.Vat.Name} {because}."),
        },
        _evidence.Now,
        By: null,
        announce);
}
