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
        ["int32-cdab"] = RegisterFormat.Int32Swapped,
        ["uint32-cdab"] = RegisterFormat.UInt32Swapped,
        ["bit"] = RegisterFormat.Bit,
        ["float32-abcd"] = RegisterFormat.FloatAbcd,
        ["float32-cdab"] = RegisterFormat.FloatCdab,
        ["float32-badc"] = RegisterFormat.FloatBadc,
        ["float32-dcba"] = RegisterFormat.FloatDcba,
    };

    public static string Word(this RegisterFormat format) => Words.First(each => each.Value == format).Key;

    /// <summary>Whether it is a float, whose bytes come in four orders.</summary>
    public static bool IsFloat(this RegisterFormat format) =>
        format is RegisterFormat.FloatAbcd or RegisterFormat.FloatCdab or RegisterFormat.FloatBadc or RegisterFormat.FloatDcba;

    /// <summary>How many registers or bits a number takes.</summary>
    public static int Count(this RegisterFormat format) => format is RegisterFormat.Int16 or RegisterFormat.UInt16 or RegisterFormat.Bit ? 1 : 2;

    /// <summary>How many bytes it takes in an answer.</summary>
    public static int Bytes(this RegisterFormat format) => format == RegisterFormat.Bit ? 1 : 2 * format.Count();

    /// <summary>
    /// Decodes <paramref name="bytes"/>, two for each register or one for a bit; a float may come out as no number. The cast makes the whole expression a
    /// double: without it C# takes single, which does not hold every 32-bit integer.
    /// </summary>
    public static double Decode(this RegisterFormat format, ReadOnlySpan<byte> bytes) => format switch
    {
        RegisterFormat.Int16 => (double)BinaryPrimitives.ReadInt16BigEndian(bytes),
        RegisterFormat.UInt16 => BinaryPrimitives.ReadUInt16BigEndian(bytes),
        RegisterFormat.Int32 => BinaryPrimitives.ReadInt32BigEndian(bytes),
        RegisterFormat.UInt32 => BinaryPrimitives.ReadUInt32BigEndian(bytes),
        RegisterFormat.Int32Swapped => BinaryPrimitives.ReadInt32BigEndian([bytes[2], bytes[3], bytes[0], bytes[1]]),
        RegisterFormat.UInt32Swapped => BinaryPrimitives.ReadUInt32BigEndian([bytes[2], bytes[3], bytes[0], bytes[1]]),
        RegisterFormat.Bit => bytes[0] & 1,
        RegisterFormat.FloatAbcd => BinaryPrimitives.ReadSingleBigEndian(bytes),
        RegisterFormat.FloatCdab => BinaryPrimitives.ReadSingleBigEndian([bytes[2], bytes[3], bytes[0], bytes[1]]),
        RegisterFormat.FloatBadc => BinaryPrimitives.ReadSingleBigEndian([bytes[1], bytes[0], bytes[3], bytes[2]]),
        _ => BinaryPrimitives.ReadSingleLittleEndian(bytes),
    };
}
