namespace VatWatch.Alarms.Lifecycle;

/// <summary>Recognises an alarm that comes and goes: three entries or more within a minute, as the measures of ANSI/ISA-18.2 count it.</summary>
internal sealed class ChatterWatch
{
    /// <summary>Entries that make a chatter.</summary>
    public const int Entries = 3;

    public static readonly TimeSpan Within = TimeSpan.FromMinutes(1);

    /// <summary>A chattering alarm is set aside for this long, or for as long as it may be.</summary>
    public static readonly TimeSpan SetAsideFor = TimeSpan.FromMinutes(30);

    private readonly Queue<TimeSpan> _entries = new(Entries);

    /// <summary>Notes an entry; true when it makes the alarm a chattering one, after which counting begins anew.</summary>
    public bool Enter(TimeSpan now)
    {
        _entries.Enqueue(now);
        while (now - _entries.Peek() > Within)
        {
            _entries.Dequeue();
        }

        if (_entries.Count < Entries)
        {
            return false;
        }

        _entries.Clear();
        return true;
    }
}
