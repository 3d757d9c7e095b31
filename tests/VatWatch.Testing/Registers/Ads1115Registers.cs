using System.Buffers.Binary;

namespace VatWatch.Testing.Registers;

/// <summary>
/// An ADS1115 as its register description tells: word registers, high byte first; a conversion starts when bit 15 of the configuration is
/// written, of the input and range written with it. In continuous mode each read of the result is of the input selected last.
/// </summary>
public sealed class Ads1115Registers : IRegisterChip
{
    // Power-up value of the configuration.
    private const ushort Initial = 0x8583;

    private static readonly double[] FullScales = [6.144, 4.096, 2.048, 1.024, 0.512, 0.256, 0.256, 0.256];

    private readonly ushort[] _registers = [0, Initial, 0x8000, 0x7FFF];
    private int _pointer;
    private int _busy;
    private int _conversions;

    /// <summary>Volts at the four pins against ground.</summary>
    public double[] Pins { get; } = new double[4];

    /// <summary>Volts that the conversion of each number finds more than the pins; null for none.</summary>
    public Func<int, double>? Ripple { get; set; }

    /// <summary>How many looks at the configuration a conversion takes.</summary>
    public int LooksPerConversion { get; set; }

    /// <summary>True when conversions never end.</summary>
    public bool NeverReady { get; set; }

    /// <summary>The code of every conversion, whatever the pins.</summary>
    public short? ForcedCode { get; set; }

    /// <summary>Loses its supply for a moment.</summary>
    public void Restart()
    {
        _registers[0] = 0;
        _registers[1] = Initial;
        _pointer = 0;
        _busy = 0;
    }

    /// <summary>Loses its supply for a moment right before the result of that number from now is read; 0 is the next.</summary>
    public int? RestartBeforeResult { get; set; }

    public void Write(ReadOnlySpan<byte> bytes)
    {
        _pointer = bytes[0] & 3;
        if (bytes.Length < 3)
        {
            return;
        }

        _registers[_pointer] = BinaryPrimitives.ReadUInt16BigEndian(bytes[1..]);
        if (_pointer == 1 && (_registers[1] & 0x8000) != 0)
        {
            Convert();
            _busy = LooksPerConversion;
        }
    }

    public void Read(Span<byte> bytes)
    {
        BinaryPrimitives.WriteUInt16BigEndian(bytes, _pointer switch
        {
            0 => Result(),
            1 => Evaluate(),
            _ => _registers[_pointer],
        });
    }

    private ushort Result()
    {
        if (RestartBeforeResult is { } further)
        {
            RestartBeforeResult = further == 0 ? null : further - 1;
            if (further == 0)
            {
                Restart();
            }
        }

        if ((_registers[1] & 0x0100) == 0)
        {
            Convert();
        }

        return _registers[0];
    }

    private ushort Evaluate()
    {
        if (NeverReady || _busy-- > 0)
        {
            return (ushort)(_registers[1] & 0x7FFF);
        }

        return (ushort)(_registers[1] | 0x8000);
    }

    private void Convert()
    {
        var config = _registers[1];
        var volts = ((config >> 12) & 7) switch
        {
            0 => Pins[0] - Pins[1],
            1 => Pins[0] - Pins[3],
            2 => Pins[1] - Pins[3],
            3 => Pins[2] - Pins[3],
            var single => Pins[single - 4],
        };
        volts += Ripple?.Invoke(_conversions++) ?? 0;
        var code = Math.Round(volts / FullScales[(config >> 9) & 7] * 32768);
        _registers[0] = unchecked((ushort)(ForcedCode ?? (short)Math.Clamp(code, short.MinValue, short.MaxValue)));
    }
}
