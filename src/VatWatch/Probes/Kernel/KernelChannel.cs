using System.Text.RegularExpressions;

namespace VatWatch.Probes.Kernel;

/// <summary>What the name of one of the kernel's files says of the number in it.</summary>
/// <param name="Rules">Whose rules hold for it.</param>
/// <param name="Unit">The unit that the scaled number comes in here; null when the name does not tell.</param>
/// <param name="Factor">From the kernel's unit to <paramref name="Unit"/>.</param>
/// <param name="IsRaw">Whether the files beside it with its scale and its offset are to be taken in.</param>
/// <remarks>
/// Sources: the kernel's Documentation/ABI/testing/sysfs-bus-iio (value = (raw + offset) × scale; temp milli °C, voltage mV, power mW) and
/// Documentation/hwmon/sysfs-interface (temp m°C, in mV, power µW). The kernel gives no unit for pH; its drivers scale to pH.
/// </remarks>
public sealed partial record KernelChannel(KernelRules Rules, string? Unit, double Factor, bool IsRaw)
{
    /// <summary>What the path of a file says.</summary>
    public static KernelChannel Of(string path)
    {
        var name = path[(path.LastIndexOf('/') + 1)..];
        if (Industrial().Match(name) is { Success: true } industrial)
        {
            var isRaw = industrial.Groups["form"].Value == "raw";
            return industrial.Groups["type"].Value switch
            {
                "temp" => new(KernelRules.Iio, "°C", 0.001, isRaw),
                "voltage" => new(KernelRules.Iio, "mV", 1, isRaw),
                "power" => new(KernelRules.Iio, "W", 0.001, isRaw),
                "ph" => new(KernelRules.Iio, "pH", 1, isRaw),
                _ => new(KernelRules.Iio, null, 1, isRaw),
            };
        }

        if (Monitor().Match(name) is { Success: true } monitor)
        {
            return monitor.Groups["type"].Value switch
            {
                "temp" => new(KernelRules.Hwmon, "°C", 0.001, false),
                "in" => new(KernelRules.Hwmon, "mV", 1, false),
                "power" => new(KernelRules.Hwmon, "W", 1e-6, false),
                _ => new(KernelRules.Hwmon, null, 1, false),
            };
        }

        return new(KernelRules.None, null, 1, false);
    }

    /// <summary>
    /// The files that may hold the scale, or the offset, of a raw one: the channel's own (<c>in_voltage0-voltage1</c>), that of all such
    /// (<c>in_voltage-voltage</c>), that of all of its type (<c>in_voltage</c>).
    /// </summary>
    public static IEnumerable<string> Beside(string rawPath, string what)
    {
        var channel = rawPath[..^"_raw".Length];
        var slash = channel.LastIndexOf('/') + 1;
        var (folder, name) = (channel[..slash], channel[slash..]);
        yield return $"{folder}{name}_{what}";
        yield return $"{folder}{Digits().Replace(name, "")}_{what}";
        yield return $"{folder}{Type().Match(name).Value}_{what}";
    }

    [GeneratedRegex(@"^in_(?<type>[a-z]+)[0-9]*(-[a-z]+[0-9]+)?(_[a-z0-9]+)*?_(?<form>raw|input)\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Industrial();

    [GeneratedRegex(@"^(?<type>temp|in|curr|power|humidity|energy|fan)[0-9]+_(input|average)\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Monitor();

    [GeneratedRegex("[0-9]+", RegexOptions.CultureInvariant)]
    private static partial Regex Digits();

    [GeneratedRegex("^in_[a-z]+", RegexOptions.CultureInvariant)]
    private static partial Regex Type();
}

/// <summary>Whose rules hold for a file's number.</summary>
public enum KernelRules
{
    /// <summary>Nobody's: another program writes it.</summary>
    None,

    /// <summary>Industrial I/O.</summary>
    Iio,

    /// <summary>Hardware monitoring.</summary>
    Hwmon,
}
