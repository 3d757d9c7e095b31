using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Lifecycle;

/// <summary>
/// The state machine of one alarm by IEC 62682 / ANSI/ISA-18.2: from what a rule finds and what people do to states and announcements.
/// Time is monotonic and comes only from the caller. Not thread safe.
/// </summary>
/// <remarks>
/// <see cref="AlarmState.Latched"/> is two states of the standard, before and after acknowledgement; <see cref="IsSeen"/> tells them apart.
/// Reminders come only while unacknowledged: an alarm that returned unseen waits in silence. What flickers in the evidence does not flicker
/// on the phone: a priority rises at once but falls only after the off-delay, and an alarm that comes out of suppression is not told again
/// before its reminder is due.
/// </remarks>
internal sealed class AlarmLifecycle(AlarmRuleSettings settings)
{
    private readonly HeldCondition _condition = new(settings.OnDelay ?? TimeSpan.Zero, settings.OffDelay);
    private bool _suppressed;
    private bool _heard = true;
    private int? _level = 0;
    private ulong? _causes = 0;
    private TimeSpan? _lowerSince;
    private TimeSpan? _announced;
    private TimeSpan _acknowledged;
    private TimeSpan _shelvedUntil;

    public AlarmState State { get; private set; }

    /// <summary>Whether the condition stands, delays included, whatever the state.</summary>
    public bool Stands => _condition.Stands;

    /// <summary>Whether somebody has acknowledged it since it last entered.</summary>
    public bool IsSeen { get; private set; }

    /// <summary>Priority as last told.</summary>
    public AlarmPriority Priority { get; private set; } = settings.Priority ?? AlarmPriority.Low;

    /// <summary>
    /// Takes up the state from before a restart. An alarm in front of the dyer is taken to stand; one that was set aside stands as it did when
    /// that was written, and one that was suppressed stays so until there is evidence again.
    /// </summary>
    /// <param name="before">The alarm as the journal has it.</param>
    /// <param name="shelfLeft">How long it stays on the shelf; zero or less ends that.</param>
    /// <param name="acknowledgedFor">How long ago it was acknowledged.</param>
    /// <param name="now">This moment.</param>
    public void Restore(AlarmStatus before, TimeSpan shelfLeft, TimeSpan acknowledgedFor, TimeSpan now)
    {
        State = before.State;
        Priority = before.Priority;
        IsSeen = before.AcknowledgedBy is not null;
        _condition.Restore(State is AlarmState.Unacknowledged or AlarmState.Acknowledged || (IsSetAside && before.Stands), now);
        _suppressed = State == AlarmState.Suppressed;
        _heard = false;
        _level = null;
        _causes = null;
        _announced = State == AlarmState.Unacknowledged ? now : null;
        _acknowledged = now - acknowledgedFor;
        _shelvedUntil = now + shelfLeft;
    }

    /// <summary>Takes in what the rule finds now.</summary>
    public AlarmTransition? Observe(in AlarmFinding finding, TimeSpan now)
    {
        if (State == AlarmState.Normal && finding.Signal == AlarmSignal.Clear && !finding.Suppressed && _condition.IsAtRest)
        {
            Priority = finding.Priority;
            return null;
        }

        _condition.Observe(finding.Signal, now, mayBegin: !finding.IsBack);
        if (finding.Signal == AlarmSignal.Clear && (State == AlarmState.Suppressed || (IsSetAside && !_heard)))
        {
            // The off-delay spares people a return that does not last. Here nobody was told, so what is clear does not come into view as an alarm.
            // Nor does what the journal says of a condition that may have gone since, when the first evidence after a restart says so.
            _condition.Drop();
        }

        _heard |= finding.Signal != AlarmSignal.Unknown;

        _suppressed = finding.Suppressed;
        var priority = Settled(finding.Priority, now);
        var transition = State switch
        {
            AlarmState.Shelved => now >= _shelvedUntil ? BackInView(now) : null,
            AlarmState.OutOfService => null,
            AlarmState.Suppressed => _suppressed || !_heard ? null : BackInView(now),
            _ when _suppressed => Enter(AlarmState.Suppressed),
            _ when Stands => Standing(finding, priority, now),
            _ => Gone(),
        };
        Note(finding, priority);
        return transition;
    }

    /// <summary>Somebody has seen it; null when there is nothing to acknowledge.</summary>
    public AlarmTransition? Acknowledge(TimeSpan now)
    {
        if (State is AlarmState.Unacknowledged or AlarmState.ReturnedUnacknowledged || (State == AlarmState.Latched && !IsSeen))
        {
            IsSeen = true;
            _acknowledged = now;
            return Enter(State switch
            {
                AlarmState.Unacknowledged => AlarmState.Acknowledged,
                AlarmState.Latched => AlarmState.Latched,
                _ => AlarmState.Normal,
            });
        }

        return null;
    }

    /// <summary>Ends a latched alarm that was acknowledged; null when there is none.</summary>
    public AlarmTransition? Reset() => State == AlarmState.Latched && IsSeen ? Enter(AlarmState.Normal) : null;

    /// <summary>Sets the alarm aside for <paramref name="time"/>; null when it is set aside already.</summary>
    public AlarmTransition? Shelve(TimeSpan time, TimeSpan now)
    {
        if (IsSetAside)
        {
            return null;
        }

        _shelvedUntil = now + time;
        return Enter(AlarmState.Shelved);
    }

    /// <summary>Takes it off the shelf before its time; null when it is not shelved.</summary>
    public AlarmTransition? Unshelve(TimeSpan now) => State == AlarmState.Shelved ? BackInView(now) : null;

    /// <summary>Takes it out of service; null when it is so already.</summary>
    public AlarmTransition? TakeOutOfService() => State == AlarmState.OutOfService ? null : Enter(AlarmState.OutOfService);

    /// <summary>Puts it back into service; null when it is not out of it.</summary>
    public AlarmTransition? ReturnToService(TimeSpan now) => State == AlarmState.OutOfService ? BackInView(now) : null;

    private bool IsSetAside => State is AlarmState.Shelved or AlarmState.Suppressed or AlarmState.OutOfService;

    private AlarmTransition? Standing(in AlarmFinding finding, AlarmPriority priority, TimeSpan now)
    {
        var worse = finding.Signal == AlarmSignal.Met && (finding.Level > _level || ((Bit(finding) & ~_causes) > 0 && finding.Priority >= Priority));
        switch (State)
        {
            case AlarmState.Unacknowledged:
                return worse || priority != Priority ? Alert(now)
                    : now - _announced >= settings.Repeat ? Alert(now) with { IsReminder = true }
                    : null;
            case AlarmState.Acknowledged:
                var again = settings.ReAlarm is { } wait && now - _acknowledged >= wait;
                return worse || again || priority > Priority ? Alert(now)
                    : priority < Priority ? Enter(AlarmState.Acknowledged, announce: true)
                    : null;
            default:
                return Alert(now);
        }
    }

    private AlarmTransition? Gone() => State switch
    {
        AlarmState.Unacknowledged => Enter(settings.Latch ? AlarmState.Latched : AlarmState.ReturnedUnacknowledged, announce: true),
        AlarmState.Acknowledged => Enter(settings.Latch ? AlarmState.Latched : AlarmState.Normal, announce: true),
        _ => null,
    };

    private AlarmTransition BackInView(TimeSpan now)
    {
        if (_suppressed || !Stands)
        {
            return Enter(_suppressed ? AlarmState.Suppressed : AlarmState.Normal);
        }

        var isToldAlready = State == AlarmState.Suppressed && now - _announced < settings.Repeat;
        return isToldAlready ? Enter(AlarmState.Unacknowledged, seen: false) : Alert(now);
    }

    private AlarmTransition Alert(TimeSpan now)
    {
        _announced = now;
        return Enter(AlarmState.Unacknowledged, announce: true, seen: false);
    }

    private AlarmTransition Enter(AlarmState state, bool announce = false, bool seen = true)
    {
        var before = State;
        State = state;
        IsSeen = IsSeen && seen && state != AlarmState.Normal;
        return new(before, state, announce);
    }

    private AlarmPriority Settled(AlarmPriority found, TimeSpan now)
    {
        _lowerSince = Stands && found < Priority ? _lowerSince ?? now : null;
        return now - _lowerSince < settings.OffDelay ? Priority : found;
    }

    private void Note(in AlarmFinding finding, AlarmPriority priority)
    {
        Priority = priority;
        if (!Stands)
        {
            (_level, _causes) = (0, 0);
        }
        else if (finding.Signal == AlarmSignal.Met)
        {
            // After a restart level and causes are not known: the first ones found are where worse begins.
            _level = Math.Max(_level ?? 0, finding.Level);
            _causes = (_causes ?? 0) | Bit(finding);
        }
    }

    private static ulong Bit(in AlarmFinding finding) => finding.Cause is { } cause ? 1UL << cause : 0;
}


/// <summary>One step of the lifecycle; a reminder has the same state before and after.</summary>
/// <param name="Announce">Whether the dyer's phone is told.</param>
internal readonly record struct AlarmTransition(AlarmState Before, AlarmState After, bool Announce)
{
    /// <summary>Told again only because nobody has acknowledged it, with nothing new to say.</summary>
    public bool IsReminder { get; init; }
}
