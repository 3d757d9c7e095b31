using VatWatch.Alarms.Acts;
using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Lifecycle;

/// <summary>One alarm at work: its rule, its lifecycle and its status as people see it. Not thread safe.</summary>
internal sealed class WatchedAlarm
{
    private static readonly Sentence HeldBack = "Held back while another alarm, or the state of the vat, says more.";

    private readonly IAlarmRule _rule;
    private readonly AlarmLifecycle _lifecycle;
    private readonly ChatterWatch _chatter = new();
    private AlarmFinding _finding;
    private bool _hasFinding;
    private AlarmStatus _status;

    /// <summary>An alarm in normal.</summary>
    public WatchedAlarm(VatId vat, IAlarmRule rule)
    {
        _rule = rule;
        _lifecycle = new(rule.Settings);
        _status = new()
        {
            Alarm = rule.Name,
            Vat = vat,
            State = AlarmState.Normal,
            Priority = _lifecycle.Priority,
            Since = default,
            Text = rule.Tell(default, stands: false),
            Action = ActionWhenGone(AlarmState.Normal, isSeen: false),
            Rationale = rule.Rationale,
        };
    }

    public IAlarmRule Rule => _rule;

    /// <summary>Whether it has changed since watching began.</summary>
    public bool HasChanged { get; private set; }

    /// <summary>The alarm as it stands; numbers and words follow the newest evidence while it is not in normal.</summary>
    public AlarmStatus Status => _lifecycle.State == AlarmState.Normal ? _status : Told(_status);

    /// <summary>Watching begins: an alarm that was never raised has been in normal since then.</summary>
    public void Begin(Stamp now) => _status = _status with { Since = now };

    /// <summary>Takes up the alarm as the journal last had it.</summary>
    public void Restore(AlarmStatus status, Stamp now)
    {
        var acknowledgedFor = now.UtcTrusted && status.AcknowledgedAt < now.Utc ? now.Utc - status.AcknowledgedAt.Value : TimeSpan.Zero;
        _lifecycle.Restore(status, ShelfLeft(status.SetAside, now), acknowledgedFor, now.Monotonic);
        _status = status with { Rationale = _rule.Rationale };
        _hasFinding = false;
    }

    /// <summary>Looks at the evidence.</summary>
    public AlarmChange? Observe(VatEvidence evidence) => Take(_rule.Evaluate(evidence), evidence.Now);

    /// <summary>Takes in a finding.</summary>
    public AlarmChange? Take(in AlarmFinding finding, Stamp now)
    {
        _finding = finding;
        _hasFinding |= finding.Signal != AlarmSignal.Unknown;
        if (_lifecycle.Observe(finding, now.Monotonic) is not { } transition)
        {
            return null;
        }

        var isEntry = transition.After == AlarmState.Unacknowledged && transition.Before is AlarmState.Normal or AlarmState.ReturnedUnacknowledged or AlarmState.Latched;
        return isEntry && _chatter.Enter(now.Monotonic) && finding.Priority < AlarmPriority.Critical
            ? SetAsideForChatter(transition, now)
            : Change(transition, now, null);
    }

    /// <summary>Carries out what a person asks; null when there is nothing to do.</summary>
    public AlarmChange? Carry(AlarmAct act, Stamp now)
    {
        var time = Within(act.For, _rule.Settings.ShelveAtMost);
        return act.Kind switch
        {
            AlarmActKind.Acknowledge => Done(_lifecycle.Acknowledge(now.Monotonic), _status with { AcknowledgedBy = act.By, AcknowledgedAt = now.Utc }, act, now),
            AlarmActKind.Shelve => Done(_lifecycle.Shelve(time, now.Monotonic), Aside(act, now, now.Utc + time), act, now),
            AlarmActKind.Unshelve => Done(_lifecycle.Unshelve(now.Monotonic), _status, act, now),
            AlarmActKind.TakeOutOfService => Done(_lifecycle.TakeOutOfService(), Aside(act, now, null), act, now),
            AlarmActKind.ReturnToService => Done(_lifecycle.ReturnToService(now.Monotonic), _status, act, now),
            AlarmActKind.Reset => Done(_lifecycle.Reset(), _status, act, now),
            _ => new AlarmChange(_status.State, Status, now, act.By, Announce: false) { Via = act.Via, Note = act.Text },
        };
    }

    /// <summary>Only critical alarms are left to chatter: the flood gate bounds what they cost, and silence would cost more.</summary>
    private AlarmChange SetAsideForChatter(AlarmTransition entry, Stamp now)
    {
        var time = Within(ChatterWatch.SetAsideFor, _rule.Settings.ShelveAtMost);
        _lifecycle.Shelve(time, now.Monotonic);
        var reason = $"It came and went {ChatterWatch.Entries} times within a minute and is set aside for {DisplayUnits.Duration(time)}.";
        _status = _status with { SetAside = new(null, now.Utc, now.UtcTrusted, reason, now.Utc + time) };
        var change = Change(new(entry.Before, AlarmState.Shelved, Announce: true), now, null);
        return change with { Status = change.Status with { Text = change.Status.Text + reason } };
    }

    private AlarmStatus Aside(AlarmAct act, Stamp now, DateTimeOffset? until) => _status with { SetAside = new(act.By, now.Utc, now.UtcTrusted, act.Text ?? "", until) };

    private AlarmChange? Done(AlarmTransition? done, AlarmStatus noted, AlarmAct act, Stamp now)
    {
        if (done is not { } transition)
        {
            return null;
        }

        _status = noted;
        return Change(transition, now, act);
    }

    private AlarmChange Change(AlarmTransition transition, Stamp now, AlarmAct? act)
    {
        var isEntering = transition.Before is AlarmState.Normal or AlarmState.Shelved or AlarmState.OutOfService or AlarmState.Suppressed;
        var isSetAside = transition.After is AlarmState.Shelved or AlarmState.OutOfService;
        HasChanged = true;
        var isAcknowledgedAway = transition.After == AlarmState.Normal && transition.Before is AlarmState.ReturnedUnacknowledged or AlarmState.Latched;
        var keepsWho = _lifecycle.IsSeen || isAcknowledgedAway;
        _status = Told(_status with
        {
            State = transition.After,
            Priority = _lifecycle.Priority,
            Since = transition.Before != transition.After && (isEntering || transition.After == AlarmState.Normal) ? now : _status.Since,
            AcknowledgedBy = keepsWho ? _status.AcknowledgedBy : null,
            AcknowledgedAt = keepsWho ? _status.AcknowledgedAt : null,
            SetAside = isSetAside ? _status.SetAside : null,
            Stands = _lifecycle.Stands,
        });
        return new(transition.Before, _status, now, act?.By, transition.Announce) { Via = act?.Via, IsReminder = transition.IsReminder };
    }

    private AlarmStatus Told(AlarmStatus status)
    {
        // After a restart the journal's words stand until there is evidence again.
        if (!_hasFinding)
        {
            return status;
        }

        return status with
        {
            Priority = _lifecycle.Priority,
            Value = _finding.Value,
            Limit = _finding.Limit,
            Unit = _finding.Unit ?? "",
            Text = status.State == AlarmState.Suppressed && !_lifecycle.Stands ? HeldBack : _rule.Tell(_finding, _lifecycle.Stands),
            Action = _lifecycle.Stands ? _finding.Action ?? _rule.Rationale.Action : ActionWhenGone(status.State, _lifecycle.IsSeen),
        };
    }

    /// <summary>
    /// What is left of the shelf by the UTC labels. A clock that is not to be believed, or that stands before the shelving, could only make
    /// the shelf longer than was asked for: it ends then, and what stands is told anew.
    /// </summary>
    private TimeSpan ShelfLeft(SettingAside? aside, Stamp now) =>
        aside is { Trusted: true, Until: { } until } && now.UtcTrusted && now.Utc >= aside.At ? Within(until - now.Utc, _rule.Settings.ShelveAtMost) : TimeSpan.Zero;

    private static TimeSpan Within(TimeSpan time, TimeSpan most) => time < TimeSpan.Zero ? TimeSpan.Zero : time > most ? most : time;

    /// <summary>What to do about an alarm whose condition does not stand.</summary>
    public static string ActionWhenGone(AlarmState state, bool isSeen) => (state, isSeen) switch
    {
        (AlarmState.ReturnedUnacknowledged, _) => "This alarm is over. Check the vat, then acknowledge.",
        (AlarmState.Latched, false) => "This alarm is over. Check the vat, acknowledge, then reset.",
        (AlarmState.Latched, true) => "This alarm is over and acknowledged. Reset it when the cause is mended.",
        _ => "Nothing to do.",
    };
}
