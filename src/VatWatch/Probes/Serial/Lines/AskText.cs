using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text;

namespace VatWatch.Probes.Serial.Lines;

/// <summary>What is sent to ask an instrument, written with the escapes <c>\r \n \t \\</c> and <c>\xNN</c>, and with a hole for the liquor's temperature.</summary>
/// <param name="Text">As written.</param>
/// <param name="Bytes">As sent, 1 to 128 bytes.</param>
internal sealed record AskText(string Text, ReadOnlyMemory<byte> Bytes)
{
    /// <summary>What a fault asks for.</summary>
    public const string Wanted = @"1 to 128 ASCII characters with the escapes \r, \n, \t, \\ and \xNN, such as ""T?\r""";

    /// <summary>Stands for the liquor's temperature, °C.</summary>
    public const string TemperatureHole = "{temperature}";

    private const int Longest = 128;

    /// <summary>Reads the escapes; false when one is unknown, a character is not ASCII, or the length is out of range.</summary>
    public static bool TryParse(string text, [NotNullWhen(true)] out AskText? ask)
    {
        ask = null;
        var bytes = new List<byte>();
        for (var at = 0; at < text.Length; at++)
        {
            if (text[at] != '\\')
            {
                if (!char.IsAscii(text[at]))
                {
                    return false;
                }

                bytes.Add((byte)text[at]);
            }
            else if (!TryEscape(text, ref at, bytes))
            {
                return false;
            }
        }

        if (bytes.Count is 0 or > Longest)
        {
            return false;
        }

        ask = new AskText(text, bytes.ToArray());
        return true;
    }

    /// <summary>What is asked, whatever temperature is told with it.</summary>
    public string Question { get; init; } = Text;

    /// <summary>Whether the liquor's temperature is to be filled in.</summary>
    public bool NeedsTemperature => Text.Contains(TemperatureHole, StringComparison.Ordinal);

    /// <summary>This with the liquor's temperature, °C, filled in with one decimal.</summary>
    public AskText At(double temperatureC) =>
        TryParse(Text.Replace(TemperatureHole, temperatureC.ToString("0.0"), StringComparison.Ordinal), out var filled) ? filled with { Question = Question } : this;

    /// <summary>In place of a command that cannot be sent.</summary>
    public static AskText Nothing { get; } = new("", default);

    /// <summary>The sample of an instrument that must be told the liquor's temperature when there is none.</summary>
    public static Sample Untold { get; } = Sample.Missing("not asked, because it must be told the liquor's temperature and there is no good one");

    /// <summary>A good sample with what its instrument was told beside it, °C.</summary>
    public static Sample Told(Sample sample, double temperatureC) =>
        sample.Quality == Quality.Good ? sample with { Reason = $"told {temperatureC:0.0} °C" } : sample;

    /// <summary>Whether an instrument that repeats what it is asked would send this line, without its ending.</summary>
    public bool IsEchoedBy(ReadOnlySpan<byte> line) => line.SequenceEqual(Bytes.Span.TrimEnd("\r\n"u8));

    /// <summary>Bytes for people: printable ASCII as it is, the rest escaped as it would be written.</summary>
    public static string Show(ReadOnlySpan<byte> bytes)
    {
        var shown = new StringBuilder();
        foreach (var value in bytes)
        {
            shown.Append(value switch
            {
                (byte)'\r' => "\\r",
                (byte)'\n' => "\\n",
                (byte)'\t' => "\\t",
                (byte)'\\' => "\\\\",
                >= 0x20 and < 0x7F => ((char)value).ToString(),
                _ => $"\\x{value:X2}",
            });
        }

        return shown.ToString();
    }

    private static bool TryEscape(string text, ref int at, List<byte> bytes)
    {
        at++;
        var letter = at < text.Length ? text[at] : '\0';
        switch (letter)
        {
            case 'r':
                bytes.Add((byte)'\r');
                return true;
            case 'n':
                bytes.Add((byte)'\n');
                return true;
            case 't':
                bytes.Add((byte)'\t');
                return true;
            case '\\':
                bytes.Add((byte)'\\');
                return true;
            case 'x' when at + 2 < text.Length
                && byte.TryParse(text.AsSpan(at + 1, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var value):
                bytes.Add(value);
                at += 2;
                return true;
            default:
                return false;
        }
    }
}
