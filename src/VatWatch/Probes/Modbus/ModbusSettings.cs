using System.Buffers.Binary;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Probes.Modbus;

/// <summary>The validated settings of one <c>modbus-rtu</c> or <c>modbus-tcp</c> probe.</summary>
/// <param name="Address">Address of the device: 1 to 247 on a serial line, 0 to 255 on a network.</param>
/// <param name="Function">1 for coils, 2 for discrete inputs, 3 for holding registers, 4 for input registers.</param>
/// <param name="Register">First register or bit as on the wire, 0 to 65535; manuals often print it as 40001 or 30001 plus this.</param>
/// <param name="Format">How the number stands in the registers.</param>
/// <param name="Scale">Factor from the number to the unit of the probe; default 1.</param>
/// <param name="Offset">What is added after it; default 0.</param>
internal sealed record ModbusSettings(byte Address, byte Function, ushort Register, RegisterFormat Format, double Scale, double Offset = 0)
{
    /// <summary>What a request takes without its envelope: function, start, count.</summary>
    public const int RequestBytes = 5;

    /// <summary>What is asked, without the envelope of a serial line or a network.</summary>
    public void WriteRequest(Span<byte> bytes)
    {
        bytes[0] = Function;
        BinaryPrimitives.WriteUInt16BigEndian(bytes[1..], Register);
        BinaryPrimitives.WriteUInt16BigEndian(bytes[3..], (ushort)Format.Count());
    }

    /// <summary>The request on a serial line: address, function, start, count, CRC with its low byte first.</summary>
    public byte[] Request()
    {
        var frame = new byte[8];
        frame[0] = Address;
        WriteRequest(frame.AsSpan(1));
        BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(6), Crc.Modbus(frame.AsSpan(0, 6)));
        return frame;
    }
}
