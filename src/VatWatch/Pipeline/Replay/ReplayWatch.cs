using VatWatch.Alarms;
using VatWatch.Calibration;
using VatWatch.Pipeline.Configuration;
using VatWatch.Probes.Recorded;
using VatWatch.Readings;
using VatWatch.Sessions.Entries;
using VatWatch.Vats.Configuration;

namespace VatWatch.Pipeline.Replay;

/// <summary>
/// Takes one vat through a recorded log as the daemon would take it through a night: the same <see cref="VatWatcher"/>, a tick every second of the log's time. It
/// knows no clock but the log's, so the same log gives the same answers. Not thread safe.
/// </summary>
/// <param name="plan">The vat, its alarms and their settings.</param>
/// <param name="calibrations">Calibrations of bare electrodes.</param>
/// <param name="listener">Told of everything that comes out, in order.</param>
public sealed class ReplayWatch(VatPlan plan, DisplayUnits units, CalibrationCache calibrations, IReplayListener listener)
{
    private static readonly TimeSpan TickPeriod = TimeSpan.FromSeconds(1);

    /// <summary>Where nothing was recorded for this long, a tick a minute does: every alarm of silence has been raised by then.</summary>
    private static readonly TimeSpan Hole = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan SlowTickPeriod = TimeSpan.FromMinutes(1);

    /// <summary>Past a hole of this length the watch is taken on at its end.</summary>
    private static readonly TimeSpan LongestHole = TimeSpan.FromDays(1);

    private readonly Queue<SessionEntry> _entries = [];
    private readonly Dictionary<ProbeId, ProbeDefinition> _probes = plan.Definition.Probes.ToDictionary(probe => probe.Id);
    private VatWatcher? _watcher;
    private bool _isCanonical;
    private DateTimeOffset _first;
    private DateTimeOffset _last;
    private DateTimeOffset _nextTick;

    /// <summary>Takes the next row.</summary>
    /// <returns>Null when it was taken, otherwise why it was left out, as a sentence.</returns>
    public string? Take(RecordedRow row)
    {
        if (!_probes.TryGetValue(row.Probe, out var probe))
        {
            return $"probe is \"{FreeText.Shown(row.Probe.Value)}\"; wanted one of vat '{plan.Definition.Id}': {string.Join(", ", _probes.Keys)}";
        }

        var isCanonical = row.Unit is not null;
        if (isCanonical && row.Unit != probe.Quantity.Unit())
        {
            return $"unit is \"{FreeText.Shown(row.Unit)}\"; wanted \"{probe.Quantity.Unit()}\" for what probe {probe.Id} measures";
        }

        if (_watcher is null)
        {
            Start(row.Time, isCanonical);
        }
        else if (isCanonical != _isCanonical)
        {
            return "the line has a unit and others have none; wanted all or none";
        }
        else if (row.Time < _last)
        {
            return $"time is {row.Time:u}, before the line above it; wanted lines in order of time";
        }

        NoteUntil(row.Time);
        TickUntil(row.Time);
        _last = row.Time;
        var (measurement, changes) = _watcher!.Accept(new Reading(plan.Definition.Id, row.Probe, probe.Quantity, row.Sample, StampOf(row.Time), TimeSpan.Zero));
        listener.Observe(measurement);
        Tell(changes);
        return null;
    }

    /// <summary>Takes what the log book held, in order of time; to be called before the first row.</summary>
    public void Take(IEnumerable<SessionEntry> entries)
    {
        foreach (var entry in entries)
        {
            _entries.Enqueue(entry);
        }
    }

    /// <summary>Ends the log: one last look at the moment of its last row.</summary>
    public void End()
    {
        if (_watcher is not null)
        {
            NoteUntil(_last);
            TickUntil(_last + TickPeriod);
        }
    }

    private void Start(DateTimeOffset at, bool isCanonical)
    {
        _isCanonical = isCanonical;
        _first = _last = _nextTick = at;
        var vat = isCanonical
            ? plan.Definition with { Probes = [.. plan.Definition.Probes.Select(probe => probe with { Unit = SampleUnit.Canonical(probe.Quantity) })] }
            : plan.Definition;
        _watcher = new VatWatcher(plan with { Definition = vat }, units, calibrations);
    }

    /// <summary>Lets the watcher know of each entry in turn with its ticks; one from before the first row at once.</summary>
    private void NoteUntil(DateTimeOffset until)
    {
        while (_entries.TryPeek(out var entry) && entry.At.Utc <= until)
        {
            _entries.Dequeue();
            TickUntil(entry.At.Utc);
            if ((entry with { At = StampOf(entry.At.Utc) }).Act() is { } act)
            {
                _watcher!.Note(act);
            }
        }
    }

    private void TickUntil(DateTimeOffset until)
    {
        while (_nextTick < until)
        {
            var (condition, changes) = _watcher!.Tick(StampOf(_nextTick));
            listener.Observe(condition);
            Tell(changes);
            var silent = _nextTick - _last;
            _nextTick = silent >= LongestHole ? until : _nextTick + (silent < Hole ? TickPeriod : SlowTickPeriod);
        }
    }

    private void Tell(IReadOnlyList<AlarmChange> changes)
    {
        for (var i = 0; i < changes.Count; i++)
        {
            listener.Observe(changes[i]);
        }
    }

    private Stamp StampOf(DateTimeOffset utc) => new(utc, utc - _first, true);
}
