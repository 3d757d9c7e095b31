using System.Globalization;
using System.Text.RegularExpressions;

namespace VatWatch.Probes.Serial.Lines;

/// <summary>Gets one value out of one line of an instrument, and refuses whatever might be something else. Thread safe; never throws on bytes.</summary>
/// <param name="pattern">Has the group <c>value</c>, and <c>status</c> and a checksum's groups where those are used.</param>
/// <param name="status">What each status word means; empty when the line has none.</param>
/// <param name="refuse">The form of a line in which the instrument refuses, or null.</param>
internal sealed partial class LinePattern(LineForm pattern, IReadOnlyDictionary<string, Quality> status, LinePattern.ChecksumField? checksum, LineForm? refuse = null)
{
    /// <summary>The group that holds the value.</summary>
    public const string ValueGroup = "value";

    /// <summary>The group that holds the instrument's own word on it.</summary>
    public const string StatusGroup = "status";

    /// <summary>Longest number; more digits than any instrument gives.</summary>
    private const int LongestNumber = 32;

    /// <summary>Where a checksum stands and what it covers: the named group, or everything before the field.</summary>
    public sealed record ChecksumField(LineChecksum Kind, string Group, string? Over);

    /// <summary>Factor on the value as sent.</summary>
    public double Scale { get; init; } = 1;

    /// <summary>What is added after <see cref="Scale"/>.</summary>
    public double Offset { get; init; }

    /// <summary>What stands before the decimals.</summary>
    public char DecimalMark { get; init; } = '.';

    /// <summary>A line of this form, where the pattern is plain text around the value; else null.</summary>
    public string? Example
    {
        get
        {
            var text = PlainText().Match(pattern.ToString());
            var line = text.Success ? Unescaped(text.Groups["before"]) + "10.00" + Unescaped(text.Groups["after"]) : null;
            return line is not null && pattern.Match(System.Text.Encoding.ASCII.GetBytes(line)).Success ? line : null;
        }
    }

    /// <summary>Whether it says nothing of what stands before or after the number, nor that nothing does.</summary>
    public bool IsLoose { get; } = PlainText().Match(pattern.ToString()) is { Success: true } text && text.Groups["value"].Value.Length == pattern.ToString().Length;

    [GeneratedRegex(@"^\^?(?<before>(?:[\w =:,;/%#@!<>~-]|\\\W)*)(?<value>\(\?<value>[^()]*\))(?<after>(?:[\w =:,;/%#@!<>~-]|\\\W)*)\$?$")]
    private static partial Regex PlainText();

    private static string Unescaped(Group group) => group.Value.Replace(@"\", "", StringComparison.Ordinal);

    /// <summary>Whether the line is a value or a refusal, as against an echo, a greeting or somebody else's line.</summary>
    public bool Knows(ReadOnlySpan<byte> line) => Found(line) is not null || IsRefusal(line);

    /// <summary>The value, or the instrument's refusal as a fault; null when the line is neither.</summary>
    public Sample? Parse(ReadOnlySpan<byte> line)
    {
        if (IsRefusal(line))
        {
            return Sample.Fault($"the instrument refuses: '{Show(line)}'");
        }

        return Found(line) is { } match ? Judge(match, line) : null;
    }

    /// <summary>Where the line has the form. To a pattern that is loose, a line with several numbers, with the number of something or of an error is a greeting or a complaint as well as a value.</summary>
    private Match? Found(ReadOnlySpan<byte> line)
    {
        var match = pattern.Match(line);
        return !match.Success || (IsLoose && !IsCutOff(match, match.Groups[ValueGroup], line) && (HasDigit(line[..match.Index], line[(match.Index + match.Length)..]) || NumbersSomething(line)))
            ? null : match;
    }

    private static bool NumbersSomething(ReadOnlySpan<byte> line) =>
        line.Contains((byte)'#') || System.Text.Encoding.Latin1.GetString(line) is var text && (text.Contains("err", StringComparison.OrdinalIgnoreCase) || text.Contains("fail", StringComparison.OrdinalIgnoreCase));

    private static bool HasDigit(ReadOnlySpan<byte> before, ReadOnlySpan<byte> after) => before.ContainsAnyInRange((byte)'0', (byte)'9') || after.ContainsAnyInRange((byte)'0', (byte)'9');

    /// <summary>The number as sent, before <see cref="Scale"/>; null where there is none.</summary>
    public double? NumberIn(ReadOnlySpan<byte> line) => Parse(line)?.Value is { } value ? (value - Offset) / Scale : null;

    private bool IsRefusal(ReadOnlySpan<byte> line) => refuse?.Match(line).Success == true;

    /// <summary>A line for people, shortened when very long.</summary>
    public static string Show(ReadOnlySpan<byte> line) => line.Length > 60 ? AskText.Show(line[..57]) + "..." : AskText.Show(line);

    /// <summary>What a group has taken of the line, for people.</summary>
    private static string Show(Group group, ReadOnlySpan<byte> line) => Show(line.Slice(group.Index, group.Length).Trim((byte)' '));

    private Sample Judge(Match match, ReadOnlySpan<byte> line)
    {
        if (checksum is not null && ChecksumFault(match, line, checksum) is { } wrong)
        {
            return Sample.Fault(wrong);
        }

        var word = match.Groups[StatusGroup];
        var quality = Quality.Good;
        if (status.Count > 0 && word.Success && !status.TryGetValue(word.Value, out quality))
        {
            return Sample.Fault($"the instrument's status '{Show(word, line)}' is none of the configured words");
        }

        if (quality == Quality.Fault)
        {
            return Sample.Fault($"the instrument reports '{Show(word, line)}'");
        }

        return Number(match, line) switch
        {
            { Quality: Quality.Good, Value: { } value } when quality == Quality.Suspect => Sample.Suspect(value, $"the instrument reports '{Show(word, line)}'"),
            var sample => sample,
        };
    }

    private Sample Number(Match match, ReadOnlySpan<byte> line)
    {
        var group = match.Groups[ValueGroup];
        var text = group.Value.Trim(' ');
        if (!group.Success || text.Length == 0)
        {
            return Sample.Fault($"there is no value in '{Show(line)}'");
        }

        var other = DecimalMark == '.' ? ',' : '.';
        if (text.Contains(other, StringComparison.Ordinal))
        {
            return Sample.Fault($"""value '{Show(group, line)}' has a '{other}'; wanted '6{DecimalMark}873', or "decimal": "{other}" in the settings""");
        }

        text = text.Replace(DecimalMark, '.');

        if (text.Length > LongestNumber || !IsPlainNumber(text)
            || !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
        {
            return Sample.Fault($"value '{Show(group, line)}' is not a number like '6.873'");
        }

        return IsCutOff(match, group, line)
            ? Sample.Fault($"value '{Show(group, line)}' is only a part of the number in '{Show(line)}'")
            : Sample.Good(value * Scale + Offset);
    }

    /// <summary>Sign, digits with at most one point, exponent: nothing else is a value, so neither NaN, infinity nor hexadecimal is.</summary>
    private static bool IsPlainNumber(string text)
    {
        var at = text[0] is '+' or '-' ? 1 : 0;
        var whole = Digits(text, ref at);
        var part = 0;
        if (at < text.Length && text[at] == '.')
        {
            at++;
            part = Digits(text, ref at);
        }

        if (whole + part > 0 && at < text.Length && text[at] is 'e' or 'E')
        {
            at++;
            at += at < text.Length && text[at] is '+' or '-' ? 1 : 0;
            return Digits(text, ref at) > 0 && at == text.Length;
        }

        return whole + part > 0 && at == text.Length;
    }

    private static int Digits(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && char.IsAsciiDigit(text[at]))
        {
            at++;
        }

        return at - start;
    }

    /// <summary>
    /// A pattern that is not anchored may take 23 out of "23,5". What stands next to the value and is not covered by the pattern must not
    /// carry the number on, nor be a digit or sign whose eighth bit a disturbance has set.
    /// </summary>
    private static bool IsCutOff(Match match, Group group, ReadOnlySpan<byte> line)
    {
        var end = group.Index + group.Length;
        var after = match.Index + match.Length == end && CarriesOn(line[end..]);
        var before = match.Index == group.Index && group.Index > 0
            && (IsDigit(line[group.Index - 1])
                || (IsMark(line[group.Index - 1]) && group.Index > 1 && IsDigit(line[group.Index - 2]))
                || (line[group.Index - 1] == '-' && IsDigit(line[group.Index]))
                || IsDisturbed(line[group.Index - 1]));
        return after || before;
    }

    private static bool CarriesOn(ReadOnlySpan<byte> rest) =>
        rest.Length > 0 && (IsDigit(rest[0])
            || (rest.Length > 1 && IsMark(rest[0]) && IsDigit(rest[1]))
            || (rest.Length > 1 && IsDisturbed(rest[0]) && (IsMark(rest[1]) || IsDigit(rest[1]))));

    /// <summary>Whether it is a digit, sign or mark but for its eighth bit. A degree sign of ISO 8859-1 is, so behind a number more is wanted.</summary>
    private static bool IsDisturbed(byte value) => value >= 0x80 && (byte)(value & 0x7F) is var clear && (IsDigit(clear) || IsMark(clear) || clear is (byte)'-' or (byte)'+');

    private static bool IsDigit(byte value) => char.IsAsciiDigit((char)value);

    private static bool IsMark(byte value) => value is (byte)',' or (byte)'.';

    private static string? ChecksumFault(Match match, ReadOnlySpan<byte> line, ChecksumField field)
    {
        var written = match.Groups[field.Group];
        if (!written.Success)
        {
            return $"there is no checksum in '{Show(line)}'";
        }

        var covered = line[..written.Index];
        if (field.Over is not null)
        {
            var over = match.Groups[field.Over];
            covered = over.Success ? line.Slice(over.Index, over.Length) : [];
        }

        var wanted = field.Kind switch
        {
            LineChecksum.Xor => $"{Crc.Xor(covered):X2}",
            LineChecksum.Crc8 => $"{Crc.Eight(covered):X2}",
            _ => $"{Crc.Modbus(covered):X4}",
        };
        return wanted.Equals(written.Value, StringComparison.OrdinalIgnoreCase)
            ? null
            : $"checksum '{Show(written, line)}' is wrong for '{Show(line)}'; wanted {wanted}";
    }
}
