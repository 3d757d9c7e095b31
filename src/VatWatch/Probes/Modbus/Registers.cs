using System.Buffers.Binary;

namespace VatWatch.Probes.Modbus;

/// <summary>Words, lengths and decoding of <see cref="RegisterFormat"/>.</summary>
internal static class Registers
{
    /// <summary>Every word that <c>format</c> may hold in the configuration.</summary>
    public static IReadOnlyDictionary<string, RegisterFormat> Words { get; } = new Dictionary<string, RegisterFormat>(StringComparer.Ordinal)
    {
        ["int16"] = RegisterFormat.Int16,
        ["uint16"] = RegisterFormat.UInt16,
        ["int32"] = RegisterFormat.Int32,
        ["uint32"] = RegisterFormat.UInt32,
        ["float32-abcd"] = RegisterFormat.FloatAbcd,
        ["float32-cdab"] = RegisterFormat.FloatCdab,
        ["float32-badc"] = RegisterFormat.FloatBadc,
        ["float32-dcba"] = RegisterFormat.FloatDcba,
    };

    /// <summary>How many registers a number takes.</summary>
    public static int Count(this RegisterFormat format) => format is RegisterFormat.Int16 or RegisterFormat.UInt16 ? 1 : 2;

    /// <summary>
    /// Decodes <paramref name="bytes"/>, two for each register; a float may come out as no number. The cast makes the whole expression a
    /// double: without it C# takes single, which does not hold every 32-bit integer.
    /// </summary>
    public static double Decode(this RegisterFormat format, ReadOnlySpan<byte> bytes) => format switch
    {
        RegisterFormat.Int16 => (double)BinaryPrimitives.ReadInt16BigEndian(bytes),
        RegisterFormat.UInt16 => BinaryPrimitives.ReadUInt16BigEndian(bytes),
        RegisterFormat.Int32 => BinaryPrimitives.ReadInt32BigEndian(bytes),
        RegisterFormat.UInt32 => BinaryPrimitives.ReadUInt32BigEndian(bytes),
        RegisterFormat.FloatAbcd => BinaryPrimitives.ReadSingleBigEndian(bytes),
        RegisterFormat.FloatCdab => BinaryPrimitives.ReadSingleBigEndian([bytes[2], bytes[3], bytes[0], bytes[1]]),
        RegisterFormat.FloatBadc => BinaryPrimitives.ReadSingleBigEndian([bytes[1], bytes[0], bytes[3], bytes[2]]),
        _ => BinaryPrimitives.ReadSingleLittleEndian(bytes),
    };
}
