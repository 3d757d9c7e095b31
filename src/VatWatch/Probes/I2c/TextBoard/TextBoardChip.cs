using VatWatch.Probes.Blocking;
using VatWatch.Probes.Serial.Lines;

namespace VatWatch.Probes.I2c.TextBoard;

/// <summary>
/// An electrode board that speaks text over I2C: the command is written, the board works, and what is then read begins with a status byte.
/// The bus is held while it works, because another command would spoil the answer.
/// </summary>
/// <param name="settings">How it is read.</param>
/// <param name="liquorC">The liquor's temperature, °C; null when there is no good one.</param>
internal sealed class TextBoardChip(GuardedI2cDevice device, TextBoardSettings settings, Func<double?> liquorC) : IChip
{
    // Status bytes: the makers' descriptions of such boards, from memory.
    private const byte Done = 1;
    private const byte NotUnderstood = 2;
    private const byte StillWorking = 254;
    private const byte NothingToSay = 255;

    /// <summary>Status and text; the longest answers have some forty characters and end with a zero.</summary>
    private const int AnswerBytes = 48;

    private const byte NotAscii = 0x80;
    private const int Looks = 10;
    private static readonly TimeSpan Look = TimeSpan.FromMilliseconds(100);

    public Sample Read()
    {
        if (!settings.Ask.NeedsTemperature)
        {
            return Ask(settings.Ask);
        }

        return liquorC() is { } temperatureC ? AskText.Told(Ask(settings.Ask.At(temperatureC)), temperatureC) : AskText.Untold;
    }

    private Sample Ask(AskText ask)
    {
        device.Write(ask.Bytes.Span);
        device.Pause(settings.Wait);
        Span<byte> answer = stackalloc byte[AnswerBytes];
        for (var look = 0; look < Looks; look++)
        {
            device.Read(answer);
            if (answer[0] != StillWorking)
            {
                return Judge(ask, answer[0], answer[1..]);
            }

            device.Pause(Look);
        }

        return Sample.Fault($"the electrode board still works on '{ask.Text}' (status 254); give it a longer \"wait\"");
    }

    private Sample Judge(AskText ask, byte status, ReadOnlySpan<byte> text) => status switch
    {
        Done => Value(ask, text[..(text.IndexOf((byte)0) is >= 0 and var end ? end : text.Length)]),
        NotUnderstood => Sample.Fault($"the electrode board does not understand '{ask.Text}' (status 2)"),
        NothingToSay => throw new ChipRestartedException($"it has nothing to say to '{ask.Text}' (status 255): it has lost the command; check its supply"),
        _ => Sample.Fault($"the electrode board's status is {status}; wanted 1, 2, 254 or 255: another chip, or the computer does not wait while the board holds the clock; set a low speed"),
    };

    private Sample Value(AskText ask, ReadOnlySpan<byte> line)
    {
        if (line.ContainsAnyInRange(NotAscii, byte.MaxValue))
        {
            return Sample.Fault($"the bytes of the electrode board are spoilt ('{LinePattern.Show(line)}'): the computer does not wait while the board holds the clock; set a low speed");
        }

        line = line.TrimEnd("\r\n "u8);
        return settings.Pattern.Parse(line)
            ?? Sample.Fault($"the answer of the electrode board to '{ask.Text}' was '{LinePattern.Show(line)}', which does not match the pattern");
    }
}
