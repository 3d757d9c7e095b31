using System.Device.Gpio.Drivers;
using System.Device.Gpio;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Gpio;

/// <summary>How a contact is read.</summary>
/// <param name="Line">Number of the line on its chip.</param>
/// <param name="Mode">Input, with the resistor of the chip that is switched on.</param>
/// <param name="OnWhenHigh">Whether a high line means on, or full.</param>
/// <param name="OnValue">What is delivered for on or full; 0 for the other.</param>
internal sealed record ContactSettings(int Line, PinMode Mode, bool OnWhenHigh, double OnValue);

/// <summary>A contact between a line and ground, or its supply: of a relay, or of a float.</summary>
internal sealed class ContactProbe(ProbeDefinition definition, BlockingBus<GpioLines> bus, ContactSettings settings) : IProbe
{
    public ProbeDefinition Definition => definition;

    public bool Listens => false;

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel)
    {
        try
        {
            var seen = await bus.RunAsync(lines => lines.Look(settings.Line, settings.Mode), cancel);
            return seen.All(high => high == seen[0])
                ? Sample.Good(seen[0] == settings.OnWhenHigh ? settings.OnValue : 0)
                : Sample.Fault($"line {settings.Line} of {bus.Device} changes within 40 ms; check for a loose wire, a long cable beside mains, or a missing pull resistor");
        }
        catch (Exception e) when (e is IOException or GpiodException or InvalidOperationException or ArgumentException or UnauthorizedAccessException)
        {
            return Sample.Fault($"line {settings.Line} of {bus.Device} cannot be read ({e.Message.TrimEnd('.')}); another program or the kernel may use it");
        }
    }
}
