using System.Globalization;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.I2c;

/// <summary>Seven-bit addresses of I2C chips, written in hexadecimal as on the boards: <c>"0x48"</c>.</summary>
internal static class I2cAddress
{
    /// <summary>As people write it.</summary>
    public static string Text(int address) => $"0x{address:X2}";

    /// <summary>Reads <c>address</c>; without a fallback it must be there.</summary>
    public static int Read(ConfigNode settings, int low, int high, int? fallback = null)
    {
        var wanted = low == high ? $"\"{Text(low)}\"" : $"an I2C address from \"{Text(low)}\" to \"{Text(high)}\"";
        if (fallback is { } absent && !settings.Has("address"))
        {
            return absent;
        }

        var text = settings.Text("address", wanted);
        if (text.StartsWith("0x", StringComparison.OrdinalIgnoreCase)
            && int.TryParse(text.AsSpan(2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var address)
            && address >= low && address <= high)
        {
            return address;
        }

        if (text.Length > 0)
        {
            settings.Faults.Add(settings.PathOf("address"), ConfigNode.Quote(text), wanted);
        }

        return low;
    }
}
