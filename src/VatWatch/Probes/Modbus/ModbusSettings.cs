using System.Buffers.Binary;
using VatWatch.Probes.Serial;

namespace VatWatch.Probes.Modbus;

/// <summary>The validated settings of one <c>modbus-rtu</c> probe.</summary>
/// <param name="Address">Address of the device, 1 to 247.</param>
/// <param name="Function">3 for holding registers, 4 for input registers.</param>
/// <param name="Register">First register as on the wire, 0 to 65535; manuals often print it as 40001 or 30001 plus this.</param>
/// <param name="Format">How the number stands in the registers.</param>
/// <param name="Scale">Factor from the number to the unit of the probe; default 1.</param>
internal sealed record ModbusSettings(byte Address, byte Function, ushort Register, RegisterFormat Format, double Scale)
{
    /// <summary>The request on the wire: address, function, start, count, CRC with its low byte first.</summary>
    public byte[] Request()
    {
        var frame = new byte[8];
        frame[0] = Address;
        frame[1] = Function;
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(2), Register);
        BinaryPrimitives.WriteUInt16BigEndian(frame.AsSpan(4), (ushort)Format.Count());
        BinaryPrimitives.WriteUInt16LittleEndian(frame.AsSpan(6), Crc.Modbus(frame.AsSpan(0, 6)));
        return frame;
    }
}
