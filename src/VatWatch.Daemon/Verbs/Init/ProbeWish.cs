using VatWatch.Daemon.Wiring;
using VatWatch.Probes.Gpio;
using VatWatch.Probes.I2c;
using VatWatch.Probes.Kernel;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.OneWire;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Spi;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>One probe that somebody wishes for: <c>temperature on /dev/i2c-1 as mcp960x</c>.</summary>
/// <param name="Place">Where it hangs.</param>
/// <param name="Driver">How it is read.</param>
internal sealed record ProbeWish(Quantity Quantity, ProbePlace Place, string Driver)
{
    /// <summary>What a sentence asks for.</summary>
    public const string Wanted = "MEASURES on PLACE [as DRIVER], such as 'temperature on /dev/serial/by-id/usb-meter' or 'ph on /dev/i2c-1 as ads1115'";

    /// <summary>Reads a wish; null with a sentence in <paramref name="fault"/>.</summary>
    /// <param name="text">As written; the place may be a number of the list.</param>
    public static ProbeWish? Parse(string text, IReadOnlyList<ProbePlace> found, out string fault)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (words is not ([_, "on", _] or [_, "on", _, "as", _]))
        {
            fault = $"'{text}' is no probe; wanted {Wanted}.";
            return null;
        }

        if (!EnumWord.All<Quantity>().TryGetValue(words[0], out var measures))
        {
            fault = $"'{words[0]}' is nothing that a probe measures; wanted one of {string.Join(", ", EnumWord.All<Quantity>().Keys)}.";
            return null;
        }

        var place = int.TryParse(words[2], out var number) ? found.ElementAtOrDefault(number - 1) : ProbePlace.Parse(words[2]);
        if (place is null)
        {
            fault = $"'{words[2]}' is no place; wanted {(found.Count > 0 ? "a number of the list, or " : "")}{ProbePlace.Wanted}.";
            return null;
        }

        return WithDriver(measures, place, words.Length > 3 ? words[4] : Usual(place.BusKind, measures), out fault);
    }

    private static ProbeWish? WithDriver(Quantity measures, ProbePlace place, string driver, out string fault)
    {
        var fitting = Catalog.Everything.Drivers.Values.Where(known => known.BusKind == place.BusKind).Select(known => known.Word).ToList();
        fault = $"'{driver}' is no driver for {place.Described}; wanted {(fitting.Count == 1 ? fitting[0] : $"one of {string.Join(", ", fitting)}")}.";
        return fitting.Contains(driver) ? new(measures, place, driver) : null;
    }

    private static string Usual(string busKind, Quantity measures) => busKind switch
    {
        SerialBusKind.Name => "text-line",
        OneWireBusKind.Name => "onewire",
        SpiBusKind.Name => "max31865",
        ModbusTcpBusKind.Name => "modbus-tcp",
        KernelBusKind.Name => "kernel-file",
        GpioBusKind.Name => "contact",
        I2cBusKind.Name => measures is Quantity.Temperature or Quantity.Ambient ? "mcp9808" : "ads1115",
        _ => "simulated",
    };
}
