using System.Buffers.Binary;
using System.Device.I2c;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.I2c;

/// <summary>An I2C device whose transfers are watched and repeated once. Disposing of it does nothing: chips share it, and the bus closes it.</summary>
internal sealed class GuardedI2cDevice(I2cDevice inner, TransferWatch watch) : I2cDevice
{
    public override I2cConnectionSettings ConnectionSettings => inner.ConnectionSettings;

    public override void Read(Span<byte> buffer) => watch.Run((_, read) => inner.Read(read), [], buffer);

    public override void Write(ReadOnlySpan<byte> buffer) => watch.Run((written, _) => inner.Write(written), buffer, []);

    public override void WriteRead(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer) =>
        watch.Run((written, read) => inner.WriteRead(written, read), writeBuffer, readBuffer);

    /// <summary>Reads a register of two bytes, high byte first, in one transfer with a repeated start.</summary>
    public ushort ReadWord(byte register)
    {
        Span<byte> word = stackalloc byte[2];
        WriteRead([register], word);
        return BinaryPrimitives.ReadUInt16BigEndian(word);
    }

    public short ReadSigned(byte register)
    {
        Span<byte> word = stackalloc byte[2];
        WriteRead([register], word);
        return BinaryPrimitives.ReadInt16BigEndian(word);
    }

    public byte ReadRegister(byte register)
    {
        Span<byte> value = stackalloc byte[1];
        WriteRead([register], value);
        return value[0];
    }

    /// <summary>Lets the chip work; ends early, with an exception, when the bus was given up.</summary>
    public void Pause(TimeSpan length) => watch.Pause(length);
}
