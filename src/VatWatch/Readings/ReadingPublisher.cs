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
        NoteChange(probe, sample, stamp);
        deliver(new Reading(probe.Vat, probe.Id, probe.Quantity, sample, stamp, took));
    }

    private void NoteChange(ProbeDefinition probe, Sample sample, Stamp stamp)
    {
        lock (_lock)
        {
            if (sample.Value is not null)
            {
                _heard = true;
                if (_awaySince is { } since)
                {
                    _awaySince = null;
                    counters.CameBack(bus.Id);
                    Log.BusBack(logger, bus.Id, bus.Device, (stamp.Monotonic - since).TotalSeconds);
                }

                if (_silent.Remove(probe.Id))
                {
                    Log.ProbeBack(logger, probe.Id, bus.Id);
                }
            }
            else if (_awaySince is null && _silent.Add(probe.Id))
            {
                // While the bus is away its own sentence says it for all of its probes.
                Log.ProbeLost(logger, probe.Id, bus.Id, bus.Device, sample.Reason ?? "no reason given", probe.Every);
            }
        }
    }
}
