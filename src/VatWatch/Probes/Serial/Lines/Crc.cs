namespace VatWatch.Probes.Serial.Lines;

/// <summary>Checksums of instruments.</summary>
internal static class Crc
{
    private static readonly ushort[] ModbusTable = MakeModbusTable();

    /// <summary>Exclusive or of all bytes.</summary>
    public static byte Xor(ReadOnlySpan<byte> bytes)
    {
        byte sum = 0;
        foreach (var value in bytes)
        {
            sum ^= value;
        }

        return sum;
    }

    /// <summary>CRC-8, polynomial 07, start 00; "123456789" gives F4 (value from memory of the common catalogues).</summary>
    public static byte Eight(ReadOnlySpan<byte> bytes)
    {
        byte sum = 0;
        foreach (var value in bytes)
        {
            sum ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (byte)((sum & 0x80) != 0 ? ((sum << 1) ^ 0x07) & 0xFF : (sum << 1) & 0xFF);
            }
        }

        return sum;
    }

    /// <summary>
    /// CRC-16 of the Modbus serial line guide V1.02, appendix B: start FFFF, reflected polynomial A001, no final xor; "123456789" gives 4B37.
    /// On the wire the low byte goes first.
    /// </summary>
    public static ushort Modbus(ReadOnlySpan<byte> bytes)
    {
        ushort sum = 0xFFFF;
        foreach (var value in bytes)
        {
            sum = (ushort)((sum >> 8) ^ ModbusTable[(sum ^ value) & 0xFF]);
        }

        return sum;
    }

    private static ushort[] MakeModbusTable()
    {
        var table = new ushort[256];
        for (var index = 0; index < table.Length; index++)
        {
            var sum = index;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) != 0 ? (sum >> 1) ^ 0xA001 : sum >> 1;
            }

            table[index] = (ushort)sum;
        }

        return table;
    }
}

/// <summary>The ways in which a line of text may carry a checksum, and how each is worked out and written.</summary>
internal enum LineChecksum
{
    /// <summary>Exclusive or of all bytes; two hexadecimal digits.</summary>
    Xor,

    /// <summary>CRC-8 with polynomial 07, start 00, not reflected, no final xor; "123456789" gives F4; two hexadecimal digits.</summary>
    Crc8,

    /// <summary>CRC-16 of Modbus (see <see cref="Crc.Modbus"/>); four hexadecimal digits, high byte first.</summary>
    Crc16Modbus,
}
