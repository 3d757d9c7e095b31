using VatWatch.Time;
using VatWatch.Vats;

namespace VatWatch.Alarms;

/// <summary>One alarm at work: its rule, its lifecycle and its status as people see it. Not thread safe.</summary>
internal sealed class WatchedAlarm
{
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
            Text = rule.Tell(default, stands: false).Text,
            Action = rule.Rationale.Action,
        };
    }

    /// <summary>The rule.</summary>
    public IAlarmRule Rule => _rule;

    /// <summary>The alarm as it stands; numbers and words follow the newest evidence while it is not in normal.</summary>
    public AlarmStatus Status => _lifecycle.State == AlarmState.Normal ? _status : Told(_status);

    /// <summary>Takes up the alarm as the journal last had it.</summary>
    public void Restore(AlarmStatus status, Stamp now)
    {
        // A journal without the end of the shelf gives the longest one, counted from the last moment it can have begun.
        var shelfLeft = (status.ShelvedUntil ?? status.Since.Utc + _rule.Settings.ShelveAtMost) - now.Utc;
        _lifecycle.Restore(status.State, status.Priority, status.AcknowledgedBy is not null, Within(shelfLeft, _rule.Settings.ShelveAtMost), now.Monotonic);
        _status = status;
        _hasFinding = false;
    }

    /// <summary>Looks at the evidence.</summary>
    public AlarmChange? Observe(VatEvidence evidence) => Take(_rule.Look(evidence), evidence.Now);

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

    /// <summary>Somebody has seen it.</summary>
    public AlarmChange? Acknowledge(string by, Stamp now)
    {
        if (_lifecycle.Acknowledge(now.Monotonic) is not { } transition)
        {
            return null;
        }

        _status = _status with { AcknowledgedBy = by, AcknowledgedAt = now.Utc };
        return Change(transition, now, by);
    }

    /// <summary>Ends it when it is latched and acknowledged.</summary>
    public AlarmChange? Reset(string by, Stamp now) => _lifecycle.Reset() is { } transition ? Change(transition, now, by) : null;

    /// <summary>Sets it aside for a time, cut down to the longest allowed.</summary>
    public AlarmChange? Shelve(Shelving act, Stamp now)
    {
        var time = Within(act.For, _rule.Settings.ShelveAtMost);
        return SetAside(_lifecycle.Shelve(time, now.Monotonic), act.Reason, now.Utc + time, act.By, now);
    }

    /// <summary>Takes it off the shelf before its time.</summary>
    public AlarmChange? Unshelve(string by, Stamp now) => _lifecycle.Unshelve(now.Monotonic) is { } transition ? Change(transition, now, by) : null;

    /// <summary>Takes it out of service.</summary>
    public AlarmChange? TakeOutOfService(string reason, string by, Stamp now) => SetAside(_lifecycle.TakeOutOfService(), reason, null, by, now);

    /// <summary>Puts it back into service.</summary>
    public AlarmChange? ReturnToService(string by, Stamp now) =>
        _lifecycle.ReturnToService(now.Monotonic) is { } transition ? Change(transition, now, by) : null;

    /// <summary>Only critical alarms are left to chatter: the flood gate bounds what they cost, and silence would cost more.</summary>
    private AlarmChange SetAsideForChatter(AlarmTransition entry, Stamp now)
    {
        var time = Within(ChatterWatch.SetAsideFor, _rule.Settings.ShelveAtMost);
        _lifecycle.Shelve(time, now.Monotonic);
        var reason = $"It came and went {ChatterWatch.Entries} times within a minute and is set aside for {DisplayUnits.Duration(time)}.";
        _status = _status with { SetAsideBecause = reason, ShelvedUntil = now.Utc + time };
        var change = Change(new(entry.Before, AlarmState.Shelved, Announce: true), now, null);
        return change with { Status = change.Status with { Text = $"{change.Status.Text} {reason}" } };
    }

    private AlarmChange? SetAside(AlarmTransition? done, string reason, DateTimeOffset? until, string? by, Stamp now)
    {
        if (done is not { } transition)
        {
            return null;
        }

        _status = _status with { SetAsideBecause = reason, ShelvedUntil = until };
        return Change(transition, now, by);
    }

    private AlarmChange Change(AlarmTransition transition, Stamp now, string? by)
    {
        var isEntering = transition.Before is AlarmState.Normal or AlarmState.Shelved or AlarmState.OutOfService or AlarmState.Suppressed;
        var isSetAside = transition.After is AlarmState.Shelved or AlarmState.OutOfService;
        var isAcknowledgedAway = transition.After == AlarmState.Normal && transition.Before is AlarmState.ReturnedUnacknowledged or AlarmState.Latched;
        var keepsWho = _lifecycle.IsSeen || isAcknowledgedAway;
        _status = Told(_status with
        {
            State = transition.After,
            Priority = _lifecycle.Priority,
            Since = transition.Before != transition.After && (isEntering || transition.After == AlarmState.Normal) ? now : _status.Since,
            AcknowledgedBy = keepsWho ? _status.AcknowledgedBy : null,
            AcknowledgedAt = keepsWho ? _status.AcknowledgedAt : null,
            SetAsideBecause = isSetAside ? _status.SetAsideBecause : null,
            ShelvedUntil = isSetAside ? _status.ShelvedUntil : null,
        });
        return new(transition.Before, _status, now, by, transition.Announce);
    }

    private AlarmStatus Told(AlarmStatus status)
    {
        // After a restart the journal's words stand until there is evidence again.
        if (!_hasFinding)
        {
            return status;
        }

        var telling = _rule.Tell(_finding, _lifecycle.Stands);
        return status with
        {
            Priority = _lifecycle.Priority,
            Value = telling.Value,
            Limit = telling.Limit,
            Unit = telling.Unit ?? "",
            Text = telling.Text,
            Action = telling.Action ?? _rule.Rationale.Action,
        };
    }

    private static TimeSpan Within(TimeSpan time, TimeSpan most) => time < TimeSpan.Zero ? TimeSpan.Zero : time > most ? most : time;
}
