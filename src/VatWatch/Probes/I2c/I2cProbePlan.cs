using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>The settings of one probe behind a chip on an I2C bus.</summary>
/// <param name="Chip">What the chip is called.</param>
/// <param name="Address">Its address.</param>
/// <param name="Unit">The unit it delivers in.</param>
/// <param name="Prepare">Sets it up; runs on the bus's thread.</param>
internal sealed record I2cProbePlan(string Chip, int Address, SampleUnit Unit, Func<GuardedI2cDevice, IChip> Prepare) : IProbePlan
{
    public IProbe Create(IProbeBus bus, VatDefinition vat, ProbeDefinition probe) =>
        new ChipProbe<GuardedI2cDevice>(probe, Chip, ((I2cProbeBus)bus).Seat(Address), Prepare);
}
