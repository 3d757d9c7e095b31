using Microsoft.Extensions.Logging;
using VatWatch.Probes;

namespace VatWatch.Readings;

/// <summary>Turns samples of one bus into readings, counts them, and logs each change of state once. Thread safe.</summary>
internal sealed class ReadingPublisher(IProbeBus bus, WatchClock clock, ProbeCounters counters, Action<Reading> deliver, ILogger logger)
{
    private readonly Lock _lock = new();
    private readonly HashSet<ProbeId> _silent = [];
    private TimeSpan? _awaySince;
    private bool _wasOpen;
    private bool _heard;

    /// <summary>Whether any probe gave a value since the bus was opened last.</summary>
    public bool HeardSinceOpen
    {
        get
        {
            lock (_lock)
            {
                return _heard;
            }
        }
    }

    /// <summary>The bus is open.</summary>
    public void Opened()
    {
        lock (_lock)
        {
            _heard = false;
            if (_wasOpen || _awaySince is not null)
            {
                return;
            }

            _wasOpen = true;
        }

        Log.BusOpen(logger, bus.Id, bus.Device);
    }

    /// <summary>The bus is gone, or cannot be opened.</summary>
    public void Away(string reason)
    {
        lock (_lock)
        {
            if (_awaySince is not null)
            {
                return;
            }

            _awaySince = clock.Now().Monotonic;
        }

        counters.WentAway(bus.Id, reason);
        Log.BusAway(logger, bus.Id, bus.Device, reason);
    }

    /// <summary>One sample was taken.</summary>
    public void Tell(ProbeDefinition probe, Sample sample, TimeSpan took)
    {
        var stamp = clock.Now();
        counters.Sampled(probe.Id, sample.Quality);
        var change = NoteChange(probe, sample, stamp);
        deliver(new Reading(probe.Vat, probe.Id, probe.Quantity, sample, stamp, took));

        // After the reading is delivered, since words take longer than an alarm.
        if (change.BusWasAway is { } away)
        {
            Log.BusBack(logger, bus.Id, bus.Device, away.TotalSeconds);
        }

        if (change.IsOfProbe && sample.Value is not null)
        {
            Log.ProbeBack(logger, probe.Id, bus.Id);
        }
        else if (change.IsOfProbe)
        {
            Log.ProbeLost(logger, probe.Id, bus.Id, bus.Device, sample.Reason ?? "no reason given", probe.Every.TotalSeconds);
        }
    }

    /// <summary>How long the bus was away, when it is back with this sample, and whether the probe has begun or ceased to give values.</summary>
    private (TimeSpan? BusWasAway, bool IsOfProbe) NoteChange(ProbeDefinition probe, Sample sample, Stamp stamp)
    {
        lock (_lock)
        {
            if (sample.Value is null)
            {
                // While the bus is away its own sentence says it for all of its probes.
                return (null, _awaySince is null && _silent.Add(probe.Id));
            }

            _heard = true;
            var away = stamp.Monotonic - _awaySince;
            if (away is not null)
            {
                _awaySince = null;
                counters.CameBack(bus.Id);
            }

            return (away, _silent.Remove(probe.Id));
        }
    }
}
