namespace VatWatch.Daemon.Web;

/// <summary>What every page says about the place it watches.</summary>
/// <param name="Site">Name of the site as configured.</param>
/// <param name="Units">The dyer's units.</param>
/// <param name="SimulatedVats">Vats with at least one probe on a simulated bus: the pages say plainly that they are not real.</param>
/// <param name="SimulationSpeed">How many times as fast as the wall clock the simulation runs; 1 when it does not.</param>
public sealed record SiteFacts(string Site, DisplayUnits Units, IReadOnlySet<VatId> SimulatedVats, double SimulationSpeed = 1);
