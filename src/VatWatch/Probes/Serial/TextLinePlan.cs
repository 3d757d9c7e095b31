using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Serial;

/// <summary>A <c>text-line</c> probe as configured.</summary>
internal sealed record TextLinePlan(TextLineSettings Settings, SampleUnit Unit) : IProbePlan
{
    public IProbe Create(IProbeBus bus, VatDefinition vat, ProbeDefinition probe) => Settings.Ask is null
        ? new StreamedLineProbe((SerialBus)bus, probe, Settings)
        : new AskedLineProbe((SerialBus)bus, probe, Settings, Settings.Ask);
}
