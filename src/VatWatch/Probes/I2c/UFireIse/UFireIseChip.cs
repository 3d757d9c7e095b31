using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c.UFireIse;

/// <summary>
/// A µFire ISE electrode board, of which only the electrode's millivolts are taken: the library's pH and ORP classes lose the sign, never
/// compensate for temperature, and answer "failed" on success (measured with version 4.2.0). One reading holds the bus for about 0.77 s.
/// </summary>
#pragma warning disable CA1001 // Disposing of the library's chip would close the device that other probes share.
internal sealed class UFireIseChip(GuardedI2cDevice device) : IChip
#pragma warning restore CA1001
{
    /// <summary>What the board can measure, mV, by the limits of its calibration.</summary>
    private const double Range = 1024;

    private readonly Iot.Device.UFire.UFireIse _board = new(device);

    public Sample Read()
    {
        var millivolts = _board.ReadElectricPotential().Millivolts;
        return Math.Abs(millivolts) <= Range
            ? Sample.Good(millivolts)
            : Sample.Fault($"the electrode board says {millivolts:0.0} mV; wanted -{Range:0} to {Range:0} mV: check the electrode's plug");
    }
}
