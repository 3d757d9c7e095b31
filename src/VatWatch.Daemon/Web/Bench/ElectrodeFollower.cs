using VatWatch.Calibration;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Bench;

/// <summary>
/// Follows the raw voltages of electrodes that somebody calibrates, from the live feed, for as long as somebody looks. There is no thread: readings wait in
/// the subscription and are taken in at each look. Thread safe.
/// </summary>
internal sealed class ElectrodeFollower : IDisposable
{
    /// <summary>Two minutes of ten probes at ten readings a second; what is lost beyond makes a trace start later, never wrong.</summary>
    private const int Waiting = 12_000;

    /// <summary>A phone that slept for longer has left the bench.</summary>
    private static readonly TimeSpan LooksAgainWithin = TimeSpan.FromMinutes(2);

    private readonly ILiveFeed _feed;
    private readonly Lock _gate = new();
    private readonly Dictionary<ProbeId, Trace> _traces = [];
    private readonly ITimer _leave;
    private ILiveSubscription? _subscription;

    public ElectrodeFollower(ILiveFeed feed, TimeProvider time)
    {
        _feed = feed;
        _leave = time.CreateTimer(_ => Leave(), null, Timeout.InfiniteTimeSpan, Timeout.InfiniteTimeSpan);
    }

    /// <summary>The electrode has been put into another solution: what it showed before does not count.</summary>
    public void Begin(ProbeDefinition probe)
    {
        lock (_gate)
        {
            TakeIn();
            _traces[probe.Id] = new Trace(probe);
        }
    }

    /// <summary>What it shows now.</summary>
    public ElectrodeSnapshot Evaluate(ProbeDefinition probe)
    {
        lock (_gate)
        {
            if (!_traces.TryGetValue(probe.Id, out var trace))
            {
                _traces[probe.Id] = trace = new Trace(probe);
            }

            TakeIn();
            if (trace.Newest is null && _feed.Vats.SelectMany(live => live.Latest).FirstOrDefault(one => one.Probe == probe.Id) is { } latest)
            {
                trace.Newest = latest;
            }

            return trace.Evaluate(_feed.Clock.Now());
        }
    }

    public void Dispose()
    {
        _leave.Dispose();
        Leave();
    }

    private void TakeIn()
    {
        _leave.Change(LooksAgainWithin, Timeout.InfiniteTimeSpan);
        _subscription ??= _feed.Subscribe(Waiting);
        while (_subscription.Events.TryRead(out var one))
        {
            if (one is Measurement measurement && _traces.TryGetValue(measurement.Probe, out var trace))
            {
                trace.Add(measurement);
            }
        }
    }

    private void Leave()
    {
        lock (_gate)
        {
            _subscription?.Dispose();
            _subscription = null;
            _traces.Clear();
        }
    }

    private sealed class Trace
    {
        private readonly ProbeDefinition _probe;
        private readonly TimeSpan _window;
        private readonly SteadyWatch _steady;

        public Trace(ProbeDefinition probe)
        {
            _probe = probe;
            _window = SteadyWatch.WindowOf(probe.Every);
            _steady = new SteadyWatch(_window, SteadyWatch.ToleranceOf(probe.Quantity));
        }

        public Measurement? Newest { get; set; }

        public void Add(Measurement measurement)
        {
            Newest = measurement;
            if (measurement.Raw is { } raw && double.IsFinite(raw))
            {
                _steady.Add(measurement.Stamp.Monotonic, _probe.Unit.ToCanonical(raw));
            }
        }

        public ElectrodeSnapshot Evaluate(Stamp now) => new(
            Newest?.Raw is { } raw ? _probe.Unit.ToCanonical(raw) : null,
            Newest is null ? "it has given no reading yet" : Newest.Raw is null ? Newest.Reason ?? "it gives no value" : null,
            Newest is { } newest ? now.Since(newest.Stamp) : null,
            _steady.TrendMillivolts,
            _steady.Steadiness,
            _steady.IsSteady ? (Math.Round(_steady.Millivolts, 2), _steady.Settling) : null,
            _window);
    }
}

/// <summary>What an electrode in a solution shows now.</summary>
/// <param name="Millivolts">Newest voltage, mV; null without one.</param>
/// <param name="WhyNone">Why there is none, as a clause.</param>
/// <param name="Age">Age of the newest reading; null before the first.</param>
/// <param name="TrendMillivolts">Change along the trend over the window, mV; null while there is too little to tell.</param>
/// <param name="Steadiness">How near it is to rest, 0 to 1.</param>
/// <param name="Rest">Where it rests and how long it took to; null while it does not rest.</param>
/// <param name="Window">How long it must have been at rest.</param>
public sealed record ElectrodeSnapshot(
    double? Millivolts, string? WhyNone, TimeSpan? Age, double? TrendMillivolts, double Steadiness, (double Millivolts, TimeSpan Settling)? Rest, TimeSpan Window);
