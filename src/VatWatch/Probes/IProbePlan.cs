using VatWatch.Vats.Configuration;

namespace VatWatch.Probes;

/// <summary>The validated settings of one probe, from which the probe is made on its bus.</summary>
public interface IProbePlan
{
    /// <summary>The unit it delivers in.</summary>
    SampleUnit Unit { get; }

    /// <summary>Makes the probe on <paramref name="bus"/>, which its driver's kind of bus plan made.</summary>
    IProbe Create(IProbeBus bus, VatDefinition vat, ProbeDefinition probe);
}
