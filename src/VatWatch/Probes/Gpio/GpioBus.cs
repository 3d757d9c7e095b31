using System.Device.Gpio;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Gpio;

/// <summary>The lines of one chip, read on a thread of its own. Thread safe; opened and closed by one loop.</summary>
internal sealed class GpioBus : IProbeBus
{
    private readonly DeviceOwner<GpioLines> _owner;

    /// <param name="id">Name in the configuration.</param>
    /// <param name="chip">Number of the chip: /dev/gpiochipCHIP.</param>
    /// <param name="open">Opens the chip of a number.</param>
    /// <param name="limits">How long calls may take.</param>
    /// <param name="wall">The clock of these limits.</param>
    public GpioBus(BusId id, int chip, Func<int, GpioDriver> open, BlockingLimits limits, TimeProvider wall)
    {
        Id = id;
        Device = $"GPIO chip {chip}";
        _owner = new DeviceOwner<GpioLines>(Device, watch => new GpioLines(new GpioController(open(chip)), watch), limits, wall);
    }

    public BusId Id { get; }

    public string Device { get; }

    public async ValueTask OpenAsync(CancellationToken cancel) => await _owner.OpenAsync(cancel);

    public async ValueTask CloseAsync() => await _owner.CloseAsync();

    public ValueTask DisposeAsync() => _owner.DisposeAsync();

    /// <summary>Whether each of a few looks at a line, some milliseconds apart, found it high.</summary>
    public Task<bool[]> LookAsync(int line, PinMode mode, CancellationToken cancel) => _owner.RunAsync(lines => lines.Look(line, mode), cancel);
}
