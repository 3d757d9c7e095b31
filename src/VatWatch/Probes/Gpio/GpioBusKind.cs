using System.Device.Gpio;
using System.Device.Gpio.Drivers;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Gpio;

/// <summary>The bus kind <c>gpio</c>: the lines of one chip. Settings: <c>chip</c>, 0 to 31 (default 0), as in /dev/gpiochipCHIP.</summary>
public sealed class GpioBusKind : IBusKind
{
    /// <summary>The word of the configuration.</summary>
    public const string Name = "gpio";

    /// <summary>Opens chips, by default those of this computer; throws <see cref="BusLostException"/> when there is none.</summary>
    internal Func<int, GpioDriver> Open { get; init; } = OpenChip;

    public string Word => Name;

    public BusPlan Read(BusId id, ConfigNode node)
    {
        var chip = node.Whole("chip", 0, 31, 0);
        return new(id, Word, _ => new BlockingBus<GpioLines>(
            id, $"GPIO chip {chip}", watch => new GpioLines(new GpioController(Open(chip)), watch), BlockingLimits.Wire, TimeProvider.System));
    }

    /// <summary>The chip through the library of its system, whose second edition is tried first.</summary>
    private static GpioDriver OpenChip(int chip)
    {
        var path = $"/dev/gpiochip{chip}";
        if (!File.Exists(path))
        {
            throw new BusLostException($"there is no {path}; wanted a chip with lines: 'ls /dev/gpiochip*' shows those there are");
        }

        try
        {
            return TryOpen(() => new LibGpiodV2Driver(chip)) ?? TryOpen(() => new LibGpiodDriver(chip))
                ?? throw new BusLostException($"the library libgpiod is not installed, by which {path} is read; wanted the package libgpiod3 or libgpiod2");
        }
        catch (Exception e) when (e is GpiodException or IOException or UnauthorizedAccessException)
        {
            throw new BusLostException($"{path} cannot be opened ({e.Message.TrimEnd('.')}); wanted the right to use it: membership of the group that owns it", e);
        }
    }

    private static GpioDriver? TryOpen(Func<GpioDriver> open)
    {
        try
        {
            return open();
        }
        catch (Exception e) when (e is DllNotFoundException or EntryPointNotFoundException or PlatformNotSupportedException || e.InnerException is DllNotFoundException)
        {
            return null;
        }
    }
}
