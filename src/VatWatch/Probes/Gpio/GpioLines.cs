using System.Device.Gpio;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Gpio;

/// <summary>The open lines of a chip, inputs all. Used on one thread.</summary>
internal sealed class GpioLines(GpioController controller, TransferWatch watch) : IDisposable
{
    private const int Looks = 5;

    /// <summary>Looks lie over 40 ms, two periods of the mains, so that a contact which hums is seen. Chosen by us.</summary>
    private static readonly TimeSpan Apart = TimeSpan.FromMilliseconds(10);

    /// <summary>Looks at a line a few times, opening it first as an input of this mode.</summary>
    public bool[] Look(int line, PinMode mode)
    {
        if (!controller.IsPinOpen(line))
        {
            watch.Run((_, _) => controller.OpenPin(line, mode), [], []);
            watch.Pause(Apart);
        }

        var seen = new bool[Looks];
        for (var look = 0; look < Looks; look++)
        {
            if (look > 0)
            {
                watch.Pause(Apart);
            }

            var at = look;
            watch.Run((_, _) => seen[at] = controller.Read(line) == PinValue.High, [], []);
        }

        return seen;
    }

    public void Dispose() => controller.Dispose();
}
