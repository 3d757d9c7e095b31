using System.Globalization;
using System.Text;

namespace VatWatch.Testing.Registers;

/// <summary>
/// An electrode board of the text kind as its wires see it: a command is written as ASCII; what is read is a status byte (1 done, 2 not understood,
/// 254 still working, 255 nothing to say) and text that ends with a zero. "R" gives the value, "RT,45.2" the value for that temperature.
/// </summary>
public sealed class TextBoardRegisters : IRegisterChip
{
    private byte _status = 255;
    private string _text = "";
    private int _working;

    /// <summary>The pH at 25 °C; it falls by 0.02 for each °C that the board is told.</summary>
    public double Value { get; set; } = 10;

    /// <summary>Reads that find it still working, after each command.</summary>
    public int LooksPerAnswer { get; set; }

    /// <summary>Bits that are set in each byte of the text: what a computer reads that does not wait while the clock is held.</summary>
    public byte Spoils { get; set; }

    /// <summary>Text of every answer; null for the board's own.</summary>
    public string? ForcedText { get; set; }

    /// <summary>Status of every answer; null for the board's own.</summary>
    public byte? ForcedStatus { get; set; }

    /// <summary>Every answer byte by byte, from its status on; null for the board's own.</summary>
    public byte[]? ForcedAnswer { get; set; }

    /// <summary>The next commands that it loses because its supply dips.</summary>
    public int Loses { get; set; }

    public void Write(ReadOnlySpan<byte> bytes)
    {
        var words = Encoding.ASCII.GetString(bytes).Split(',');
        _working = LooksPerAnswer;
        (_status, _text) = words switch
        {
            _ when Loses-- > 0 => ((byte)255, ""),
            ["R"] => ((byte)1, Shown(Value)),
            ["RT", var told] when double.TryParse(told, NumberStyles.Float, CultureInfo.InvariantCulture, out var celsius) => ((byte)1, Shown(Value - 0.02 * (celsius - 25))),
            _ => ((byte)2, ""),
        };
    }

    public void Read(Span<byte> bytes)
    {
        bytes.Clear();
        if (ForcedAnswer is not null)
        {
            ForcedAnswer.CopyTo(bytes);
            return;
        }

        if (_working-- > 0)
        {
            bytes[0] = 254;
            return;
        }

        bytes[0] = ForcedStatus ?? _status;
        var text = Encoding.ASCII.GetBytes(ForcedText ?? _text);
        for (var at = 0; at < text.Length; at++)
        {
            bytes[at + 1] = (byte)(text[at] | Spoils);
        }
    }

    private static string Shown(double value) => value.ToString("0.000", CultureInfo.InvariantCulture);
}
