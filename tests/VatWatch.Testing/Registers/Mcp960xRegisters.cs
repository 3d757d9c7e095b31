using System.Buffers.Binary;

namespace VatWatch.Testing.Registers;

/// <summary>
/// An MCP9600 or MCP9601 as its register description tells, with a thermocouple on it: what it makes of the thermocouple's voltage depends on
/// the type it was set to, as in life (K and T are modelled, by the ITS-90 functions).
/// </summary>
public sealed class Mcp960xRegisters : IRegisterChip
{
    private const double CelsiusPerCount = 0.0625;

    private readonly byte[] _bytes = new byte[0x21];
    private byte _pointer;
    private byte _flags;
    private int _looks;

    /// <summary>What is really soldered on.</summary>
    public Thermocouple Soldered { get; set; } = Thermocouple.K;

    /// <summary>Temperature of its junction, °C, 0 and above.</summary>
    public double HotC { get; set; } = 25;

    /// <summary>Temperature of the chip, °C, 0 and above.</summary>
    public double ColdC { get; set; } = 25;

    /// <summary>Registers 0 and 2 as they read, in place of what the thermocouple gives.</summary>
    public (ushort Hot, ushort Cold)? Forced { get; set; }

    /// <summary>Register 0x20.</summary>
    public ushort Identity { get; set; } = 0x4112;

    /// <summary>Bit 5 of the status.</summary>
    public bool Shorted { get; set; }

    /// <summary>Bit 4 of the status.</summary>
    public bool Open { get; set; }

    /// <summary>How many looks at the status a conversion takes; negative for never.</summary>
    public int LooksPerConversion { get; set; }

    /// <summary>Register 5.</summary>
    public byte Sensor => _bytes[5];

    /// <summary>Loses its supply for a moment: all settings are gone, type K is back.</summary>
    public void Restart() => Array.Clear(_bytes);

    public void Write(ReadOnlySpan<byte> bytes)
    {
        _pointer = bytes[0];
        if (bytes.Length < 2)
        {
            return;
        }

        if (_pointer == 4)
        {
            _flags &= bytes[1];
            _looks = LooksPerConversion;
        }
        else
        {
            _bytes[_pointer] = bytes[1];
        }
    }

    public void Read(Span<byte> bytes)
    {
        if (_pointer == 4 || bytes.Length == 1)
        {
            bytes[0] = _pointer == 4 ? Status() : _bytes[_pointer];
            return;
        }

        BinaryPrimitives.WriteUInt16BigEndian(bytes, _pointer switch
        {
            0 => Forced?.Hot ?? Counts(Hot()),
            1 => Counts(Hot() - ColdC),
            2 => Forced?.Cold ?? Counts(ColdC),
            0x20 => Identity,
            _ => 0,
        });
    }

    private byte Status()
    {
        if (_looks >= 0 && _looks-- == 0)
        {
            _flags |= 0x40;
        }

        return (byte)(_flags | (Shorted ? 0x20 : 0) | (Open ? 0x10 : 0));
    }

    private double Hot()
    {
        var voltage = Soldered.Millivolts(HotC) - Soldered.Millivolts(ColdC);
        var believed = (_bytes[5] & 0x70) == 0x20 ? Thermocouple.T : Thermocouple.K;
        return believed.TemperatureC(voltage + believed.Millivolts(ColdC));
    }

    private static ushort Counts(double celsius) => unchecked((ushort)(short)Math.Round(celsius / CelsiusPerCount));
}
