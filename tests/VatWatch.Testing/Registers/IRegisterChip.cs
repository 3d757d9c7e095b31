namespace VatWatch.Testing.Registers;

/// <summary>A chip on a fake I2C bus, as its wires see it.</summary>
public interface IRegisterChip
{
    /// <summary>Takes the bytes of one write.</summary>
    void Write(ReadOnlySpan<byte> bytes);

    /// <summary>Gives the bytes of one read.</summary>
    void Read(Span<byte> bytes);
}
