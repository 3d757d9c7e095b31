using System.Buffers.Binary;
using System.Globalization;
using System.Text.RegularExpressions;

namespace VatWatch.Probes.OneWire;

/// <summary>
/// Understands the two lines that Linux gives for a 1-wire thermometer: the nine bytes of its scratchpad with the verdict on their checksum,
/// and the nine of the last good read with <c>t=</c> in m°C. Only the first line is of this read; the last good bytes are ignored. Pure.
/// </summary>
/// <remarks>Source: the kernel's w1_therm driver and its documentation; values of FORMAT.md.</remarks>
internal static partial class Scratchpad
{
    // The family of the part with other steps (DS18S20), and that of the one with another word (a thermocouple converter shares it).
    private const string OldFamily = "10";
    private const string MixedFamily = "3b";

    // The content after power-up. Original parts mark it in byte 6; clones hold 10 or ff there, as after a measurement.
    private const int PowerOnMilliC = 85_000;
    private const short PowerOnWord = 0x0550;

    // The same word with the two further bits of a part of 14 bits.
    private const int PowerOnFineMilliC = 85_047;

    private const byte PowerOnByte6 = 0x0C;

    // How far liquor moves between two readings; our choice, no source.
    private const double NearC = 2;

    private const int FinestBits = 14;
    private const int StarvedMilliC = 127_937;
    private const int LowestMilliC = -55_000;
    private const int HighestMilliC = 125_000;

    /// <summary>
    /// Reads the text of <paramref name="device"/>; never throws on a text. The 85 °C that stand in a part after power-up are good only
    /// within 2 °C of its last good reading, <paramref name="lastC"/> in °C (null when there is none).
    /// </summary>
    public static Sample Read(string text, string device, double? lastC = null)
    {
        if (text.Trim('\0', ' ', '\n', '\r').Length == 0)
        {
            return Sample.Missing($"the thermometer {device} gave nothing: no answer on the wire, or the kernel converts for another; check its plug and its three wires");
        }

        if (Lines().Match(text) is not { Success: true } match)
        {
            return Sample.Fault($"the text of the thermometer {device} is not a scratchpad with its temperature");
        }

        var bytes = Convert.FromHexString(match.Groups["bytes"].Value.Replace(" ", "", StringComparison.Ordinal));
        if (match.Groups["verdict"].Value != "YES" || Checksum(bytes) != 0)
        {
            return Sample.Fault($"the thermometer {device} sent bytes with a wrong checksum; check its wires, their length and the pull-up resistor");
        }

        // The checksum of zeros is zero.
        if (bytes.All(value => value == 0))
        {
            return Sample.Fault($"the thermometer {device} sent only zeros: the data wire is held low, shorted to ground");
        }

        return int.TryParse(match.Groups["milli"].Value, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var milliC)
            ? Judge(milliC, bytes, device, lastC)
            : Sample.Fault($"the temperature of the thermometer {device} is not a number");
    }

    /// <summary>CRC-8 of the bus: x⁸ + x⁵ + x⁴ + 1, low bit first; 0 over bytes that end in their checksum. Source: the maker's note on it.</summary>
    public static byte Checksum(ReadOnlySpan<byte> bytes)
    {
        var crc = 0;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) != 0 ? (crc >> 1) ^ 0x8C : crc >> 1;
            }
        }

        return (byte)crc;
    }

    private static Sample Judge(int milliC, byte[] bytes, string device, double? lastC)
    {
        if (IsPowerOn(milliC, bytes) && bytes[6] == PowerOnByte6)
        {
            return Sample.Fault($"the thermometer {device} shows 85 °C as it does after power-up, without having measured; check its supply");
        }

        // A measured 85 °C leaves another byte there, but so do clones that have not measured; which it was, the reading before tells.
        if (IsPowerOn(milliC, bytes) && !IsNear(milliC / 1000.0, lastC))
        {
            return Sample.Suspect(milliC / 1000.0, $"the thermometer {device} shows exactly 85 °C, as some do after power-up without having measured; check its supply");
        }

        // 127.9375 °C is printed with or without its last digit rounded.
        if (milliC is StarvedMilliC or StarvedMilliC + 1 or 127_940)
        {
            return Sample.Fault($"the thermometer {device} had too little power to measure; give it its own supply wire, or a stronger pull-up");
        }

        if (milliC is < LowestMilliC or > HighestMilliC)
        {
            return Sample.Fault($"the thermometer {device} says {milliC / 1000.0:0.0} °C; wanted -55 to 125 °C, for which it is made");
        }

        return device[..2] is OldFamily or MixedFamily ? Sample.Good(milliC / 1000.0) : Compare(milliC, bytes, device);
    }

    private static bool IsPowerOn(int milliC, byte[] bytes) =>
        milliC == PowerOnMilliC || (milliC is > PowerOnMilliC and <= PowerOnFineMilliC && BinaryPrimitives.ReadInt16LittleEndian(bytes) == PowerOnWord);

    private static bool IsNear(double celsius, double? lastC) => lastC is { } last && Math.Abs(celsius - last) <= NearC;

    /// <summary>The kernel's figure must be that of the bytes.</summary>
    private static Sample Compare(int milliC, byte[] bytes, string device)
    {
        var celsius = Celsius(bytes);
        return Math.Abs(celsius - milliC / 1000.0) < 0.5
            ? Sample.Good(celsius)
            : Sample.Fault($"the kernel's {milliC / 1000.0:0.000} °C does not fit the bytes of the thermometer {device}, which say {celsius:0.000} °C");
    }

    /// <summary>
    /// Sixteenths of a degree, and below them the two lowest bits of the settings byte, which count at 13 and 14 bits. Bits below the
    /// resolution, which the settings byte holds in its upper three bits, are not defined and are cut off.
    /// </summary>
    private static double Celsius(byte[] bytes)
    {
        var bits = Math.Min(9 + (bytes[4] >> 5), FinestBits);
        var undefined = FinestBits - bits;
        var sixtyFourths = (BinaryPrimitives.ReadInt16LittleEndian(bytes) << 2) | (bytes[4] & 3);
        return (sixtyFourths >> undefined << undefined) / 64.0;
    }

    [GeneratedRegex(
        @"^(?<bytes>([0-9a-f]{2} ){9}): crc=[0-9a-f]{2} (?<verdict>YES|NO)\r?\n([0-9a-f]{2} ){9}t=(?<milli>-?[0-9]{1,7})\s*\0*$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Lines();
}
