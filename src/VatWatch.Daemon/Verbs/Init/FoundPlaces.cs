using VatWatch.Probes.Kernel;
using VatWatch.Probes.OneWire;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Looks where on this machine probes could hang. It opens nothing: a port that is looked at too closely resets what is behind it.</summary>
internal static class FoundPlaces
{
    /// <summary>More than this is not listed.</summary>
    private const int Most = 50;

    /// <summary>
    /// Serial ports by their lasting names, else by the names of their sockets (<c>/dev/vatwatch</c>) and those that can change; then 1-wire
    /// thermometers, I2C adapters, SPI devices, values of the kernel and chips of GPIO lines.
    /// </summary>
    /// <param name="root">Folder that stands for <c>/</c>; tests have their own.</param>
    public static IReadOnlyList<ProbePlace> Evaluate(string root) =>
    [
        .. Ports(root)
            .Concat(Names(root, OneWireBusKind.UsualRoot[1..], "*-*"))
            .Concat(Paths(root, "dev", "i2c-*"))
            .Concat(Paths(root, "dev", "spidev*"))
            .Concat(Values(root, "sys/bus/iio/devices", "iio:device*", "in_*_raw", "in_*_input"))
            .Concat(Values(root, "sys/class/hwmon", "hwmon*", "temp*_input", "power*_input"))
            .Concat(Paths(root, "dev", "gpiochip*"))
            .Select(ProbePlace.Parse).OfType<ProbePlace>().Take(Most),
    ];

    private static IEnumerable<string> Ports(string root) => Paths(root, "dev/serial/by-id", "*") is { Length: > 0 } lasting
        ? lasting
        : Paths(root, "dev/vatwatch", "*").Concat(Paths(root, "dev", "ttyUSB*")).Concat(Paths(root, "dev", "ttyACM*"));

    /// <summary>Files whose name tells a unit, in the folders of the kernel's devices.</summary>
    private static IEnumerable<string> Values(string root, string folder, string devices, params string[] patterns) =>
        from device in Names(root, folder, devices)
        from pattern in patterns
        from path in Paths(root, $"{folder}/{device}", pattern)
        where KernelChannel.Of(path).Unit is not null
        select path;

    private static string[] Paths(string root, string folder, string pattern) => [.. Names(root, folder, pattern).Select(name => $"/{folder}/{name}")];

    private static List<string> Names(string root, string folder, string pattern)
    {
        try
        {
            return [.. new DirectoryInfo(Path.Combine(root, folder)).EnumerateFileSystemInfos(pattern).Select(entry => entry.Name).Order(StringComparer.Ordinal)];
        }
        catch (Exception none) when (none is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }
}
