using VatWatch.Alarms;

namespace VatWatch.Notifications.Contacts;

/// <summary>
/// Stands between alarm changes and one contact: lets sentences through until the flood limit, then holds them back and sends one summary per window
/// instead. Two kinds pass in a flood too, each by itself and at once: a critical alarm that comes, and the first of a vat that matters more than all
/// that was told of it. Not thread safe.
/// </summary>
public sealed class FloodGate(FloodLimits limits)
{
    private readonly Queue<TimeSpan> _offered = new();
    private readonly Queue<TimeSpan> _passed = new();
    private readonly Dictionary<(VatId Vat, AlarmName Alarm), (TimeSpan At, bool Stands)> _told = [];
    private readonly Dictionary<VatId, (TimeSpan At, AlarmPriority Priority)> _highest = [];
    private readonly HashSet<(VatId Vat, AlarmName Alarm)> _heldAlarms = [];
    private TimeSpan _now;
    private TimeSpan _summaryAt;
    private TimeSpan _floodAt;

    /// <summary>A gate with the usual limits.</summary>
    public FloodGate()
        : this(new FloodLimits())
    {
    }

    /// <summary>Whether a flood is on.</summary>
    public bool IsFlooded { get; private set; }

    /// <summary>Sentences held back since the start.</summary>
    public long HeldBack { get; private set; }

    /// <summary>Sentences held back of which no summary has spoken yet.</summary>
    public int Held { get; private set; }

    /// <summary>The sentences that may go out when <paramref name="sentence"/> is to be told about an alarm: what is due from the gate itself, and the sentence unless it is held back.</summary>
    public IReadOnlyList<string> Pass(AlarmStatus status, string sentence, TimeSpan monotonic)
    {
        var sentences = new List<string>(Due(monotonic));
        _offered.Enqueue(_now);
        if ((!IsFlooded && _passed.Count < limits.Most) || MustPass(status))
        {
            Note(status);
            sentences.Add(sentence);
            return sentences;
        }

        Held++;
        HeldBack++;
        _heldAlarms.Add((status.Vat, status.Alarm));
        if (!IsFlooded)
        {
            IsFlooded = true;
            _summaryAt = _floodAt = _now;
            sentences.Add($"Too many alarms at once: after {limits.Most} messages in {DisplayUnits.Duration(limits.Window)} the next ones are held back. Look at the alarm page.");
        }

        return sentences;
    }

    /// <summary>What is due without a new change: the summary of a flood that goes on or has ended.</summary>
    public IReadOnlyList<string> Due(TimeSpan monotonic)
    {
        _now = monotonic > _now ? monotonic : _now;
        Forget(_offered);
        Forget(_passed);
        var isOver = IsFlooded && _offered.Count < limits.Calm;
        IsFlooded = IsFlooded && !isOver;
        return Held > 0 && (isOver || _now - _summaryAt >= limits.Window) ? [Summary()] : [];
    }

    /// <summary>
    /// An alarm that comes and is critical, or matters more than what was told of its vat since the window before the flood. One that was just told as standing is not
    /// told again, whatever came in between: that would be a flood of one alarm.
    /// </summary>
    private bool MustPass(AlarmStatus status)
    {
        if (status.State != AlarmState.Unacknowledged)
        {
            return false;
        }

        var wasJustTold = _told.TryGetValue((status.Vat, status.Alarm), out var told) && told.Stands && _now - told.At < limits.SameAlarmEvery;
        return !wasJustTold && (status.Priority == AlarmPriority.Critical || !(HighestOf(status.Vat) >= status.Priority));
    }

    private void Note(AlarmStatus status)
    {
        _passed.Enqueue(_now);
        _told[(status.Vat, status.Alarm)] = (_now, status.State == AlarmState.Unacknowledged);
        _highest[status.Vat] = HighestOf(status.Vat) > status.Priority ? _highest[status.Vat] : (_now, status.Priority);
    }

    /// <summary>The highest priority told of a vat in this flood and the window before it, or in the window before now; null for none.</summary>
    private AlarmPriority? HighestOf(VatId vat) =>
        _highest.TryGetValue(vat, out var highest) && highest.At > (IsFlooded ? _floodAt : _now) - limits.Window ? highest.Priority : null;

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

    /// <summary>In a flood an alarm that passes all the same does so no oftener than this, unless its return was told meanwhile.</summary>
    public TimeSpan SameAlarmEvery { get; init; } = TimeSpan.FromMinutes(2);
}
