namespace VatWatch.Daemon.Service;

/// <summary>The memory of the runtime.</summary>
internal static class ManagedHeap
{
    /// <summary>So often a collection of some 10 ms is no load, and with three open pages half a megabyte gathers meanwhile.</summary>
    private static readonly TimeSpan Period = TimeSpan.FromMinutes(10);

    /// <summary>
    /// Gives back every now and then what is no longer used, until disposed. The collector itself looks into the older generations and the buffers of connections only under pressure, which
    /// a watch does not make for hours: until then what happened to be in use during a collection stays, 3 MB an hour.
    /// </summary>
    public static ITimer GiveBackUnused(TimeProvider time) =>
        time.CreateTimer(static _ => GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true), null, Period, Period);
}
