namespace VatWatch.Alarms;

/// <summary>
/// Stands between alarm changes and the phone: lets sentences through until the flood limit, then holds them back and sends one summary per
/// window instead. A critical alarm is never held back, unless it was told a moment ago, nor is the first sentence about a vat that is more urgent
/// than what was told of the vat in the flood. Not thread safe.
/// </summary>
public sealed class FloodGate(FloodLimits limits)
{
    private readonly Queue<TimeSpan> _offered = new();

    /// <summary>What passed within the window; in a flood, from the window before it on.</summary>
    private readonly Queue<(TimeSpan At, VatId Vat, AlarmPriority Priority)> _passed = new();
    private readonly HashSet<(VatId Vat, AlarmName Alarm)> _heldAlarms = [];
    private readonly Dictionary<(VatId Vat, AlarmName Alarm), TimeSpan> _critical = [];
    private TimeSpan _now;
    private TimeSpan _summaryAt;

    /// <summary>A gate with the usual limits.</summary>
    public FloodGate()
        : this(new FloodLimits())
    {
    }

    /// <summary>Whether a flood is on.</summary>
    public bool IsFlooded { get; private set; }

    /// <summary>Sentences held back since the start.</summary>
    public long HeldBack { get; private set; }

    /// <summary>Sentences held back that no summary has spoken of yet.</summary>
    public int Held { get; private set; }

    /// <summary>The sentences that may go out when <paramref name="sentence"/> is to be told about an alarm; without it when it is held back.</summary>
    public IReadOnlyList<string> Pass(AlarmStatus status, string sentence, TimeSpan monotonic)
    {
        var sentences = new List<string>(Due(monotonic));
        _offered.Enqueue(_now);
        var isFirst = status.State == AlarmState.Unacknowledged && _passed.All(passed => passed.Vat != status.Vat || passed.Priority < status.Priority);
        var isCritical = status is { State: AlarmState.Unacknowledged, Priority: AlarmPriority.Critical } && !_critical.ContainsKey((status.Vat, status.Alarm));
        var isBelowLimit = !IsFlooded && _passed.Count < limits.Most;
        if (isFirst || isBelowLimit)
        {
            _passed.Enqueue((_now, status.Vat, status.Priority));
        }

        if (isFirst || isBelowLimit || isCritical)
        {
            NoteCritical(status);
            sentences.Add(sentence);
            return sentences;
        }

        Held++;
        HeldBack++;
        _heldAlarms.Add((status.Vat, status.Alarm));
        if (!IsFlooded)
        {
            IsFlooded = true;
            _summaryAt = _now;
            sentences.Add($"Too many alarms at once: after {limits.Most} messages in {DisplayUnits.Duration(limits.Window)} the next ones are held back. Look at the alarm page.");
        }

        return sentences;
    }

    /// <summary>What is due without a new change: the summary of a flood that goes on or has ended.</summary>
    public IReadOnlyList<string> Due(TimeSpan monotonic)
    {
        _now = monotonic > _now ? monotonic : _now;
        while (_offered.TryPeek(out var offered) && _now - offered >= limits.Window)
        {
            _offered.Dequeue();
        }

        foreach (var old in _critical.Where(told => _now - told.Value >= limits.CriticalEvery).ToList())
        {
            _critical.Remove(old.Key);
        }

        IsFlooded &= _offered.Count >= limits.Calm;
        while (!IsFlooded && _passed.TryPeek(out var passed) && _now - passed.At >= limits.Window)
        {
            _passed.Dequeue();
        }

        return Held > 0 && (!IsFlooded || _now - _summaryAt >= limits.Window) ? [Summary()] : [];
    }

    /// <summary>Whoever was told of a critical alarm a moment ago and of nothing else since knows that it stands: one that flaps does not ring each time.</summary>
    private void NoteCritical(AlarmStatus status)
    {
        if (status is { State: AlarmState.Unacknowledged, Priority: AlarmPriority.Critical })
        {
            _critical[(status.Vat, status.Alarm)] = _now;
        }
        else
        {
            _critical.Remove((status.Vat, status.Alarm));
        }
    }

    private string Summary()
    {
        _summaryAt = _now;
        var messages = Held == 1 ? "1 alarm message was" : $"{Held} alarm messages were";
        var alarms = _heldAlarms.Count == 1 ? "1 alarm" : $"{_heldAlarms.Count} alarms";
        var vats = string.Join(", ", _heldAlarms.Select(held => held.Vat.Value).Distinct().Order(StringComparer.Ordinal));
        Held = 0;
        _heldAlarms.Clear();
        return $"{messages} held back because too many came at once, about {alarms} of {vats}. The alarm page has them all.";
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

    /// <summary>In a flood, the same critical alarm is told no oftener than this.</summary>
    public TimeSpan CriticalEvery { get; init; } = TimeSpan.FromMinutes(2);
}
