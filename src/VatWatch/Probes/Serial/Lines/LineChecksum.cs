namespace VatWatch.Probes.Serial.Lines;

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
