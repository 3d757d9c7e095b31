using VatWatch.Probes;

namespace VatWatch.Pipeline.Configuration;

/// <summary>Every kind of bus and every driver that a configuration may name.</summary>
/// <param name="BusKinds">By their word.</param>
/// <param name="Drivers">By their word.</param>
public sealed record ProbeCatalog(IReadOnlyDictionary<string, IBusKind> BusKinds, IReadOnlyDictionary<string, IProbeDriver> Drivers)
{
    public static ProbeCatalog Of(IEnumerable<IBusKind> busKinds, IEnumerable<IProbeDriver> drivers) => new(
        busKinds.ToDictionary(kind => kind.Word, StringComparer.Ordinal),
        drivers.ToDictionary(driver => driver.Word, StringComparer.Ordinal));
}
