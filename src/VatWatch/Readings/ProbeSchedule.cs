using VatWatch.Probes;

namespace VatWatch.Readings;

/// <summary>When one probe is due, on the monotonic side of the vat's clock. Keeps its beat: being late never shifts it, and never bursts.</summary>
internal sealed class ProbeSchedule(IProbe probe, TimeSpan start)
{
    public IProbe Probe => probe;

    /// <summary>Next due moment.</summary>
    public TimeSpan Due { get; private set; } = start;

    /// <summary>Begins a new beat at <paramref name="now"/>.</summary>
    public void Restart(TimeSpan now) => Due = now;

    /// <summary>Moves on to the first beat after <paramref name="now"/>; returns how many beats had to be left out.</summary>
    public int Advance(TimeSpan now)
    {
        var period = probe.Definition.Every.Ticks;
        var beats = Math.Max(1, (now - Due).Ticks / period + 1);
        Due += TimeSpan.FromTicks(beats * period);
        return (int)Math.Min(beats - 1, int.MaxValue);
    }
}
