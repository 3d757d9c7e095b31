using VatWatch.Alarms.Rules;

namespace VatWatch.Alarms.Lifecycle;

/// <summary>
/// A condition with its on-delay and off-delay. It stands once it was met for the on-delay, and falls once it was clear, unbroken by
/// another meeting, for the off-delay; time without evidence counts for neither. Not thread safe.
/// </summary>
/// <remarks>
/// While it does not stand, time in which it is clear is taken back at half rate instead of at once: one stray value raises nothing, but
/// a value that spends more than a third of its time past the limit still gets through. That share is an engineering judgement, no source.
/// </remarks>
internal sealed class HeldCondition(TimeSpan onDelay, TimeSpan offDelay)
{
    private AlarmSignal _signal;
    private TimeSpan _at;
    private TimeSpan _metFor;
    private TimeSpan _clearFor;

    /// <summary>Whether the condition stands, delays included.</summary>
    public bool Stands { get; private set; }

    /// <summary>Whether it was clear when last seen, and nothing of a meeting is left: seen clear again, nothing changes.</summary>
    public bool IsAtRest => _signal == AlarmSignal.Clear && !Stands && _metFor == TimeSpan.Zero;

    /// <summary>Takes up a condition as it was before a restart.</summary>
    public void Restore(bool stands, TimeSpan now)
    {
        Stands = stands;
        _signal = AlarmSignal.Unknown;
        _at = now;
        _metFor = TimeSpan.Zero;
        _clearFor = TimeSpan.Zero;
    }

    /// <summary>The signal before held until <paramref name="now"/>; from now on it is <paramref name="signal"/>, by which it begins to stand only where it <paramref name="mayBegin"/>.</summary>
    public void Observe(AlarmSignal signal, TimeSpan now, bool mayBegin = true)
    {
        Pass(now > _at ? now - _at : TimeSpan.Zero);
        _at = now > _at ? now : _at;
        _signal = signal;
        if (signal == AlarmSignal.Met)
        {
            _clearFor = TimeSpan.Zero;
            Stands = Stands || (mayBegin && _metFor >= onDelay);
        }
        else if (signal == AlarmSignal.Clear && Stands && _clearFor >= offDelay)
        {
            Stands = false;
            _metFor = TimeSpan.Zero;
        }
    }

    /// <summary>Lets the condition fall at once, without its off-delay.</summary>
    public void Drop()
    {
        Stands = false;
        _metFor = TimeSpan.Zero;
    }

    private void Pass(TimeSpan time)
    {
        if (_signal == AlarmSignal.Met)
        {
            _metFor = TimeMath.Min(_metFor + time, 2 * onDelay);
        }
        else if (_signal == AlarmSignal.Clear)
        {
            _clearFor = TimeMath.Min(_clearFor + time, offDelay);
            _metFor = Stands ? _metFor : TimeSpan.FromTicks(Math.Max(0, _metFor.Ticks - time.Ticks / 2));
        }
    }
}
