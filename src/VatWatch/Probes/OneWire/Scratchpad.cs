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

    private const int PowerOnMilliC = 85_000;
    private const byte PowerOnByte6 = 0x0C;
    private const int StarvedMilliC = 127_937;
    private const int LowestMilliC = -55_000;
    private const int HighestMilliC = 125_000;

    /// <summary>Reads the text of <paramref name="device"/>; never throws on a text.</summary>
    public static Sample Read(string text, string device)
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
            ? Judge(milliC, bytes, device)
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

    private static Sample Judge(int milliC, byte[] bytes, string device)
    {
        if (milliC == PowerOnMilliC && bytes[6] == PowerOnByte6)
        {
            return Sample.Fault($"the thermometer {device} shows 85 °C as it does after power-up, without having measured; check its supply");
        }

        // A measured 85 °C leaves another byte there, but so do clones that have not measured; which it was, the readings before and after tell.
        if (milliC == PowerOnMilliC)
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

    /// <summary>The kernel's figure must be that of the bytes; the bits below the resolution are not defined and are cut off.</summary>
    private static Sample Compare(int milliC, byte[] bytes, string device)
    {
        // With bit 7 set a clone measures with 13 or 14 bits, of which the word keeps 12: none is undefined.
        var undefinedBits = (bytes[4] & 0x80) != 0 ? 0 : 3 - ((bytes[4] >> 5) & 3);
        var sixteenths = BinaryPrimitives.ReadInt16LittleEndian(bytes) >> undefinedBits << undefinedBits;
        var celsius = sixteenths / 16.0;
        return Math.Abs(celsius - milliC / 1000.0) < 0.5
            ? Sample.Good(celsius)
            : Sample.Fault($"the kernel's {milliC / 1000.0:0.000} °C does not fit the bytes of the thermometer {device}, which say {celsius:0.000} °C");
    }

    [GeneratedRegex(
        @"^(?<bytes>([0-9a-f]{2} ){9}): crc=[0-9a-f]{2} (?<verdict>YES|NO)\r?\n([0-9a-f]{2} ){9}t=(?<milli>-?[0-9]{1,7})\s*\0*$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Lines();
}
