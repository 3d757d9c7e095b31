using System.Collections.Concurrent;

namespace VatWatch.Readings;

/// <summary>Counts what happens on the buses since the start of the daemon, for the metrics page. Thread safe.</summary>
public sealed class ProbeCounters
{
    private readonly ConcurrentDictionary<BusId, BusTally> _buses = new();
    private readonly ConcurrentDictionary<ProbeId, ProbeTally> _probes = new();

    private readonly ConcurrentDictionary<BusId, string?> _away = new();

    /// <summary>One bus: times opened, times that opening failed, times lost, closes that did not return in time.</summary>
    public readonly record struct BusCounts(long Opens, long FailedOpens, long Losses, long StuckCloses);

    /// <summary>One probe: samples by quality, and beats left out because the bus was late.</summary>
    public readonly record struct ProbeCounts(long Good, long Suspect, long Missing, long Fault, long Skipped);

    /// <summary>Every bus that was ever away, and why it is now; null once it is back.</summary>
    public IReadOnlyDictionary<BusId, string?> Away => _away;

    /// <summary>Counts of every bus seen so far.</summary>
    public IReadOnlyDictionary<BusId, BusCounts> Buses => _buses.ToDictionary(pair => pair.Key, pair => pair.Value.Read());

    /// <summary>Counts of every probe seen so far.</summary>
    public IReadOnlyDictionary<ProbeId, ProbeCounts> Probes => _probes.ToDictionary(pair => pair.Key, pair => pair.Value.Read());

    /// <summary>Counts of one bus; zeros when it was not seen yet.</summary>
    public BusCounts Of(BusId bus) => _buses.TryGetValue(bus, out var tally) ? tally.Read() : default;

    /// <summary>Counts of one probe; zeros when it was not seen yet.</summary>
    public ProbeCounts Of(ProbeId probe) => _probes.TryGetValue(probe, out var tally) ? tally.Read() : default;

    internal void Opened(BusId bus) => Interlocked.Increment(ref Tally(bus).Opens);

    internal void OpenFailed(BusId bus) => Interlocked.Increment(ref Tally(bus).FailedOpens);

    internal void Lost(BusId bus) => Interlocked.Increment(ref Tally(bus).Losses);

    internal void CloseStuck(BusId bus) => Interlocked.Increment(ref Tally(bus).StuckCloses);

    internal void Skipped(ProbeId probe, int beats) => Interlocked.Add(ref Tally(probe).Skipped, beats);

    /// <summary>Counts a sample of this quality.</summary>
    public void Sampled(ProbeId probe, Quality quality)
    {
        var tally = Tally(probe);
        switch (quality)
        {
            case Quality.Good:
                Interlocked.Increment(ref tally.Good);
                break;
            case Quality.Suspect:
                Interlocked.Increment(ref tally.Suspect);
                break;
            case Quality.Missing:
                Interlocked.Increment(ref tally.Missing);
                break;
            default:
                Interlocked.Increment(ref tally.Fault);
                break;
        }
    }

    private BusTally Tally(BusId bus) => _buses.GetOrAdd(bus, static _ => new BusTally());

    private ProbeTally Tally(ProbeId probe) => _probes.GetOrAdd(probe, static _ => new ProbeTally());

    internal void WentAway(BusId bus, string reason) => _away[bus] = reason;

    internal void CameBack(BusId bus) => _away.TryUpdate(bus, null, _away.GetValueOrDefault(bus));

    private sealed class BusTally
    {
        public long Opens;
        public long FailedOpens;
        public long Losses;
        public long StuckCloses;

        public BusCounts Read() => new(
            Interlocked.Read(ref Opens), Interlocked.Read(ref FailedOpens), Interlocked.Read(ref Losses), Interlocked.Read(ref StuckCloses));
    }

    private sealed class ProbeTally
    {
        public long Good;
        public long Suspect;
        public long Missing;
        public long Fault;
        public long Skipped;

        public ProbeCounts Read() => new(
            Interlocked.Read(ref Good),
            Interlocked.Read(ref Suspect),
            Interlocked.Read(ref Missing),
            Interlocked.Read(ref Fault),
            Interlocked.Read(ref Skipped));
    }
}
