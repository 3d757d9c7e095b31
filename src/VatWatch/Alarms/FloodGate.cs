namespace VatWatch.Alarms;

/// <summary>
/// Stands between alarm changes and the phone: lets sentences through until the flood limit, then holds them back and sends one summary per
/// window instead. Critical alarms are never lost in a flood: they are told together, at their own slow pace. Not thread safe.
/// </summary>
public sealed class FloodGate(FloodLimits limits)
{
    /// <summary>Critical sentences put into one message; more are counted.</summary>
    private const int SentencesTogether = 3;

    private readonly Queue<TimeSpan> _offered = new();
    private readonly Queue<TimeSpan> _passed = new();
    private readonly Dictionary<(string Vat, string Alarm), string> _critical = [];
    private readonly HashSet<(string Vat, string Alarm)> _heldAlarms = [];
    private TimeSpan _now;
    private TimeSpan _summaryAt;
    private TimeSpan? _criticalAt;
    private int _held;

    /// <summary>A gate with the usual limits.</summary>
    public FloodGate()
        : this(new FloodLimits())
    {
    }

    /// <summary>Whether a flood is on.</summary>
    public bool IsFlooded { get; private set; }

    /// <summary>Sentences held back since the start.</summary>
    public long HeldBack { get; private set; }

    /// <summary>The sentences that may go out when <paramref name="sentence"/> is to be told about an alarm; none when it is held back.</summary>
    public IReadOnlyList<string> Pass(AlarmStatus status, string sentence, TimeSpan monotonic)
    {
        var sentences = new List<string>(Due(monotonic));
        _offered.Enqueue(_now);
        if (!IsFlooded && _passed.Count < limits.Most)
        {
            _passed.Enqueue(_now);
            sentences.Add(sentence);
            return sentences;
        }

        Hold(status, sentence);
        if (!IsFlooded)
        {
            IsFlooded = true;
            sentences.Add(Begun());
        }
        else
        {
            sentences.AddRange(DueCritical());
        }

        return sentences;
    }

    /// <summary>What is due without a new change: the summary of a flood that goes on or has ended, and critical sentences that waited.</summary>
    public IReadOnlyList<string> Due(TimeSpan monotonic)
    {
        _now = monotonic > _now ? monotonic : _now;
        Forget(_offered);
        Forget(_passed);
        if (!IsFlooded)
        {
            return [];
        }

        if (_offered.Count < limits.Calm)
        {
            IsFlooded = false;
            return _held == 0 ? [] : [Summary()];
        }

        return _now - _summaryAt >= limits.Window && _held > 0 ? [Summary()] : DueCritical();
    }

    private void Hold(AlarmStatus status, string sentence)
    {
        _held++;
        HeldBack++;
        var alarm = (status.Vat.Value, status.Alarm.Value);
        _heldAlarms.Add(alarm);
        if (status.Priority == AlarmPriority.Critical && status.State == AlarmState.Unacknowledged)
        {
            _critical[alarm] = sentence;
        }
        else
        {
            _critical.Remove(alarm);
        }
    }

    private string[] DueCritical() =>
        _critical.Count == 0 || _now - _criticalAt < limits.CriticalEvery ? [] : [TakeCritical()];

    private string Begun()
    {
        _summaryAt = _now;
        return $"{CriticalFirst()}Too many alarms at once: after {limits.Most} messages in {DisplayUnits.Duration(limits.Window)} the next ones are held back. Look at the alarm page.";
    }

    private string Summary()
    {
        _summaryAt = _now;
        var messages = _held == 1 ? "1 alarm message was" : $"{_held} alarm messages were";
        var alarms = _heldAlarms.Count == 1 ? "1 alarm" : $"{_heldAlarms.Count} alarms";
        var vats = string.Join(", ", _heldAlarms.Select(held => held.Vat).Distinct().Order(StringComparer.Ordinal));
        var sentence = $"{CriticalFirst()}{messages} held back because too many came at once, about {alarms} of {vats}. The alarm page has them all.";
        _held = 0;
        _heldAlarms.Clear();
        return sentence;
    }

    private string CriticalFirst() => _critical.Count > 0 ? TakeCritical() + " " : "";

    private string TakeCritical()
    {
        _criticalAt = _now;
        var told = _critical.Values.Take(SentencesTogether).ToList();
        if (_critical.Count > told.Count)
        {
            told.Add($"{_critical.Count - told.Count} more critical alarms stand.");
        }

        _critical.Clear();
        return string.Join(" ", told);
    }

    private void Forget(Queue<TimeSpan> times)
    {
        while (times.TryPeek(out var oldest) && _now - oldest >= limits.Window)
        {
            times.Dequeue();
        }
    }
}

/// <summary>How many messages a person can take, after the measures of ANSI/ISA-18.2: no more than 10 in any 10 minutes.</summary>
public sealed record FloodLimits
{
    /// <summary>Messages in one <see cref="Window"/> before the flood begins; 1 to 100.</summary>
    public int Most { get; init; } = 10;

    /// <summary>Length of the window; 1 min to 1 h.</summary>
    public TimeSpan Window { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>The flood is over when fewer than this many came within the window.</summary>
    public int Calm { get; init; } = 5;

    /// <summary>In a flood, critical alarms are told together and no oftener than this.</summary>
    public TimeSpan CriticalEvery { get; init; } = TimeSpan.FromMinutes(2);
}
