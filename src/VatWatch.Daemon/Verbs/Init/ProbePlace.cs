using System.Text.RegularExpressions;
using VatWatch.Probes.Gpio;
using VatWatch.Probes.I2c;
using VatWatch.Probes.Kernel;
using VatWatch.Probes.Modbus;
using VatWatch.Probes.OneWire;
using VatWatch.Probes.Serial;
using VatWatch.Probes.Spi;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Where on this machine a probe can hang.</summary>
/// <param name="BusKind">Kind of bus, as the configuration writes it.</param>
/// <param name="Text">As people write it: the path of a port or an adapter, the id of a 1-wire thermometer, or "simulated".</param>
internal sealed partial record ProbePlace(string BusKind, string Text)
{
    /// <summary>The word for a probe that is only imagined.</summary>
    public const string SimulatedText = "simulated";

    private const string AdapterPrefix = "/dev/i2c-";
    private const string ChipPrefix = "/dev/spidev";
    private const string LinesPrefix = "/dev/gpiochip";
    private const string KernelPrefix = "/sys/";

    /// <summary>A vat that is only imagined.</summary>
    public static ProbePlace Simulated { get; } = new("simulation", SimulatedText);

    /// <summary>What a sentence asks for.</summary>
    public const string Wanted = "a port such as /dev/serial/by-id/..., an adapter such as /dev/i2c-1, a chip such as /dev/spidev0.0, a 1-wire thermometer such as 28-0316a2797ac5, "
        + "a device on the network such as tcp:192.168.1.40, a value of the kernel such as /sys/bus/iio/devices/iio:device0/in_temp_raw, lines such as /dev/gpiochip0, or simulated";

    /// <summary>In words, for a list.</summary>
    public string Described => BusKind switch
    {
        SerialBusKind.Name => IsPassing ? $"serial port {Text} (a name that can change)" : $"serial port {Text}",
        SpiBusKind.Name => $"SPI device {Text}",
        I2cBusKind.Name => $"I2C adapter {Text}",
        OneWireBusKind.Name => $"1-wire thermometer {Text}",
        ModbusTcpBusKind.Name => $"device on the network {Text}",
        KernelBusKind.Name => $"value of the kernel {Text}",
        GpioBusKind.Name => $"lines of {Text}",
        _ => "a simulated vat",
    };

    /// <summary>Whether the name goes by the order in which plugs are found, so that another start may give it to another instrument.</summary>
    public bool IsPassing => PassingPattern().IsMatch(Text);

    /// <summary>Bus and chip select of an SPI device.</summary>
    public (int Bus, int ChipSelect) Chip =>
        Text[ChipPrefix.Length..].Split('.') is [var bus, var select] ? (int.Parse(bus), int.Parse(select)) : default;

    /// <summary>Name or address of a device on the network, and its port; null for the usual one.</summary>
    public (string Host, string? Port) Network =>
        NetworkPattern().Match(Text) is { Success: true } match ? (match.Groups["host"].Value, match.Groups["port"] is { Success: true } port ? port.Value : null) : default;

    /// <summary>Number of a chip of lines.</summary>
    public int Lines => int.Parse(Text.AsSpan(LinesPrefix.Length));

    /// <summary>Number of an I2C adapter.</summary>
    public int Adapter => int.Parse(Text.AsSpan(AdapterPrefix.Length));

    /// <summary>Reads what people write; null when it is no place.</summary>
    public static ProbePlace? Parse(string text) => text switch
    {
        SimulatedText => Simulated,
        _ when AdapterPattern().IsMatch(text) => new(I2cBusKind.Name, text),
        _ when ChipPattern().IsMatch(text) => new(SpiBusKind.Name, text),
        _ when ThermometerPattern().IsMatch(text) => new(OneWireBusKind.Name, text),
        _ when LinesPattern().IsMatch(text) => new(GpioBusKind.Name, text),
        _ when NetworkPattern().IsMatch(text) => new(ModbusTcpBusKind.Name, text),
        _ when text.StartsWith(KernelPrefix, StringComparison.Ordinal) => new(KernelBusKind.Name, text),
        _ when text.StartsWith(LinesPrefix, StringComparison.Ordinal) => null,
        _ when text.StartsWith('/') && !text.StartsWith(AdapterPrefix, StringComparison.Ordinal) && !text.StartsWith(ChipPrefix, StringComparison.Ordinal) => new(SerialBusKind.Name, text),
        _ => null,
    };

    [GeneratedRegex("^/dev/i2c-([0-9]|[12][0-9]|3[01])\\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex AdapterPattern();

    [GeneratedRegex("^/dev/spidev([0-9]|[12][0-9]|3[01])\\.([0-9]|[12][0-9]|3[01])\\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex ChipPattern();

    [GeneratedRegex("^/dev/gpiochip([0-9]|[12][0-9]|3[01])\\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex LinesPattern();

    [GeneratedRegex("^tcp:(?<host>[A-Za-z0-9][A-Za-z0-9.-]*)(:(?<port>[0-9]{1,5}))?\\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex NetworkPattern();

    [GeneratedRegex("^/dev/tty(USB|ACM)[0-9]+\\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex PassingPattern();

    [GeneratedRegex("^(10|22|28|3b|42)-[0-9a-f]{12}\\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex ThermometerPattern();
}
