namespace VatWatch.Testing.Registers;

/// <summary>
/// An MAX31865 as its register description tells: byte registers, written at 0x80 and above, the address advancing; one conversion when bit 5
/// of the configuration is written while bit 7, the bias, is on; one look for broken wires when bits 3 and 2 are written as 01 beside the bias
/// and without a conversion. Bits 5 to 3 of the faults come of that look alone, the others of a conversion; all stay until they are cleared.
/// </summary>
public sealed class Max31865Registers
{
    private const double FullScale = 32768;

    private readonly byte[] _bytes = new byte[8];

    /// <summary>The element, Ω.</summary>
    public double Ohm { get; set; } = 100;

    /// <summary>The board's reference resistor, Ω.</summary>
    public double ReferenceOhm { get; set; } = 430;

    /// <summary>Fault byte that the chip would give.</summary>
    public byte Faults { get; set; }

    /// <summary>Looks at the configuration that a conversion, or a look for broken wires, takes.</summary>
    public int LooksBusy { get; set; }

    /// <summary>Register of the result as it reads, in place of the element's.</summary>
    public ushort? ForcedResult { get; set; }

    /// <summary>What the wire MISO carries when the chip does not drive it; null when it does.</summary>
    public byte? Floating { get; set; }

    /// <summary>Conversions so far.</summary>
    public int Conversions { get; private set; }

    /// <summary>Register 0.</summary>
    public byte Configuration => _bytes[0];

    /// <summary>Looks for broken wires so far.</summary>
    public int FaultCycles { get; private set; }

    /// <summary>Loses its supply for a moment.</summary>
    public void Restart() => Array.Clear(_bytes);

    private const byte WireFaults = 0x38;
    private int _busy;

    internal void Transfer(ReadOnlySpan<byte> written, Span<byte> read)
    {
        var register = written[0] & 0x7F;
        for (var i = 1; i < written.Length; i++)
        {
            var here = (register + i - 1) % _bytes.Length;
            if ((written[0] & 0x80) != 0)
            {
                Store(here, written[i]);
            }
            else if (i < read.Length)
            {
                read[i] = here == 0 ? Configured() : _bytes[here];
            }
        }

        if (Floating is { } level)
        {
            read.Fill(level);
        }
    }

    private void Store(int register, byte value)
    {
        _bytes[register] = value;
        if (register != 0)
        {
            return;
        }

        if ((value & 0x02) != 0)
        {
            // Clearing the faults; the bit clears itself.
            _bytes[7] = 0;
            _bytes[2] &= 0xFE;
            _bytes[0] &= 0xFD;
        }

        if ((value & 0xA0) == 0xA0)
        {
            Convert();
            _busy = LooksBusy;
        }
        else if ((value & 0xEC) == 0x84)
        {
            FaultCycles++;
            _bytes[7] |= (byte)(Faults & WireFaults);
            _busy = LooksBusy;
        }
    }

    /// <summary>Register 0; the bits of what is under way clear themselves when it has ended.</summary>
    private byte Configured()
    {
        if (_busy-- <= 0)
        {
            _bytes[0] &= 0xD3;
        }

        return _bytes[0];
    }

    private void Convert()
    {
        Conversions++;
        var code = (int)Math.Clamp(Math.Round(Ohm / ReferenceOhm * FullScale), 0, FullScale - 1);
        _bytes[7] |= (byte)(Faults & ~WireFaults);
        var word = ForcedResult ?? (ushort)((code << 1) | (_bytes[7] != 0 ? 1 : 0));
        _bytes[1] = (byte)(word >> 8);
        _bytes[2] = (byte)(word & 0xFF);
    }
}
