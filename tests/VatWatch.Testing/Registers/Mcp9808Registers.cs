using System.Buffers.Binary;

namespace VatWatch.Testing.Registers;

/// <summary>An MCP9808 as its register description tells: word registers, high byte first.</summary>
public sealed class Mcp9808Registers : IRegisterChip
{
    private int _pointer;

    /// <summary>Register 1.</summary>
    public ushort Configuration { get; set; }

    /// <summary>Register 5 as it reads.</summary>
    public ushort Temperature { get; set; }

    /// <summary>What register 5 will read after one more look, as while the first conversion is under way.</summary>
    public ushort? TemperatureAfterOneLook { get; set; }

    /// <summary>Register 6.</summary>
    public ushort Maker { get; set; } = 0x0054;

    /// <summary>Register 7.</summary>
    public ushort Device { get; set; } = 0x0400;

    public void Write(ReadOnlySpan<byte> bytes)
    {
        _pointer = bytes[0] & 0x0F;
        if (_pointer == 1 && bytes.Length == 3)
        {
            Configuration = BinaryPrimitives.ReadUInt16BigEndian(bytes[1..]);
        }
    }

    public void Read(Span<byte> bytes)
    {
        BinaryPrimitives.WriteUInt16BigEndian(bytes, _pointer switch
        {
            1 => Configuration,
            5 => Temperature,
            6 => Maker,
            7 => Device,
            _ => 0,
        });
        if (_pointer == 5 && TemperatureAfterOneLook is { } later)
        {
            Temperature = later;
            TemperatureAfterOneLook = null;
        }
    }
}
