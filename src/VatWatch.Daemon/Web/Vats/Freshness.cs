using VatWatch.Measurements;

namespace VatWatch.Daemon.Web.Vats;

/// <summary>When a number on a page counts as old: past three sample periods, but at least 15 s, as for the alarm about a silent probe.</summary>
/// <param name="SimulationSpeed">
/// A fast simulation's seconds are short: two real seconds are always allowed, or every hiccup of the computer would look like old data.
/// </param>
public sealed record Freshness(double SimulationSpeed)
{
    private static readonly TimeSpan AtLeast = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan RealAllowance = TimeSpan.FromSeconds(2);

    /// <summary>How old a measurement may be.</summary>
    public TimeSpan Limit(ProbeDefinition? probe)
    {
        var periods = 3 * (probe?.Every ?? TimeSpan.Zero);
        var allowance = SimulationSpeed > 1 ? RealAllowance * SimulationSpeed : TimeSpan.Zero;
        return new[] { periods, AtLeast, allowance }.Max();
    }

    public bool IsOld(Measurement measurement, ProbeDefinition? probe, Stamp now) => now.Since(measurement.Stamp) > Limit(probe);
}
