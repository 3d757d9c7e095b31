using System.Buffers.Binary;

namespace VatWatch.Testing.Registers;

/// <summary>
/// A µFire ISE board: byte registers, floats low byte first, a pointer that advances. Takes the library's way of writing, the register alone
/// and then four bytes without one; whether the board's own program does too is not known.
/// </summary>
public sealed class UFireIseRegisters : IRegisterChip
{
    private const byte TaskRegister = 0x27;
    private const byte MeasureMillivolts = 0x50;

    private readonly byte[] _bytes = new byte[0x28];
    private int _pointer;

    /// <summary>The electrode, mV.</summary>
    public float Millivolts { get; set; }

    /// <summary>Tasks that were asked for.</summary>
    public int Tasks { get; private set; }

    public void Write(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length == 4)
        {
            bytes.CopyTo(_bytes.AsSpan(_pointer));
            return;
        }

        _pointer = bytes[0];
        if (bytes.Length == 2)
        {
            _bytes[_pointer] = bytes[1];
        }

        if (_pointer == TaskRegister && bytes.Length == 2)
        {
            Tasks++;
            if (bytes[1] == MeasureMillivolts)
            {
                BinaryPrimitives.WriteSingleLittleEndian(_bytes.AsSpan(1), Millivolts);
            }
        }
    }

    public void Read(Span<byte> bytes)
    {
        for (var i = 0; i < bytes.Length; i++)
        {
            bytes[i] = _bytes[(_pointer + i) % _bytes.Length];
        }
    }
}
