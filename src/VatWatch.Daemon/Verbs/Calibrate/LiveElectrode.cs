using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>Chooses how to see a probe: on its own bus, or, where the daemon has the bus, in the daemon's store.</summary>
internal static class LiveElectrode
{
    public static ILiveElectrode Open(CalibrationJob job, bool daemonRuns)
    {
        if (daemonRuns)
        {
            return new StoredElectrode(job.Folder, job.Probe);
        }

        var clock = new WatchClock(TimeProvider.System);
        var known = new KnownTemperatures(clock);
        return new BenchElectrode(BusWithProbes.Build(job.Configuration.Watch, clock, known), known, job.Probe, clock);
    }
}
