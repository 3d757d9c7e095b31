using System.Device.Spi;
using VatWatch.Probes.Blocking;

namespace VatWatch.Probes.Spi;

/// <summary>An SPI device whose transfers are watched and repeated once.</summary>
internal sealed class GuardedSpiDevice(SpiDevice inner, TransferWatch watch) : SpiDevice
{
    public override SpiConnectionSettings ConnectionSettings => inner.ConnectionSettings;

    public override void Read(Span<byte> buffer) => watch.Run((_, read) => inner.Read(read), [], buffer);

    public override void Write(ReadOnlySpan<byte> buffer) => watch.Run((written, _) => inner.Write(written), buffer, []);

    public override void TransferFullDuplex(ReadOnlySpan<byte> writeBuffer, Span<byte> readBuffer) =>
        watch.Run((written, read) => inner.TransferFullDuplex(written, read), writeBuffer, readBuffer);

    /// <summary>Reads <paramref name="count"/> bytes, 1 to 8, from <paramref name="register"/> on.</summary>
    public byte[] ReadRegisters(byte register, int count)
    {
        Span<byte> written = stackalloc byte[count + 1];
        Span<byte> read = stackalloc byte[count + 1];
        written.Clear();
        written[0] = register;
        TransferFullDuplex(written, read);
        return read[1..].ToArray();
    }

    /// <summary>Lets the chip work; ends early, with an exception, when the bus was given up.</summary>
    public void Pause(TimeSpan length) => watch.Pause(length);

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }
}
