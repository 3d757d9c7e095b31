using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Serial.Lines;

/// <summary>
/// The driver <c>text-line</c>: an instrument on a serial port that answers, or streams, one value or several in a line of ASCII text.
/// </summary>
/// <remarks>
/// <para><c>ask</c>: what is sent for one line, with the escapes <c>\r \n \t \\ \xNN</c>; absent when the instrument streams. Probes that
/// ask the same share one exchange, so a line with several values is asked for once.</para>
/// <para><c>{temperature}</c> in <c>ask</c> is filled with the liquor's temperature, °C; without a good one nothing is asked.</para>
/// <para><c>first</c>: commands given once after the port was opened, and again after a silence: <c>[{ "ask": "C,0\r", "answer": "^\*OK$" }]</c>.</para>
/// <para><c>pattern</c>: a .NET regular expression of at most 1000 characters, without the line's ending, with the named group <c>value</c>: digits with a decimal
/// point. A byte that is not ASCII reads as U+FFFD; write <c>.</c> for it.</para>
/// <para><c>unit</c>: the unit in which the value comes, see <see cref="SampleUnit.Wanted"/>.</para>
/// <para>Lines that do not match are passed over until the reply timeout: an echo, a greeting, a status before the value.</para>
/// <para><c>refuse</c>: the form of a line in which the instrument refuses, such as <c>^\*ER</c>; such a line is a fault at once.</para>
/// <para><c>scale</c>, <c>offset</c>: value = number in the line × scale + offset. <c>decimal</c>: <c>.</c> (default) or <c>,</c>.</para>
/// <para><c>ending</c>: <c>lf</c> (a CR before it is dropped), <c>cr</c> or <c>crlf</c>; when absent, CR and LF in any order end a line.</para>
/// <para><c>status</c>: what each word in the group <c>status</c> means, such as <c>{ "OK": "good", "COLD": "suspect", "E1": "fault" }</c>;
/// any other word is a fault.</para>
/// <para><c>checksum</c>: <c>{ "kind": "xor" | "crc-8" | "crc-16-modbus", "group": "sum", "over": "body" }</c>. The group named by
/// <c>group</c> holds it in hexadecimal; it covers the bytes of the group named by <c>over</c> or, without that key, all bytes of the line
/// before the field. Kinds are those of <see cref="LineChecksum"/>.</para>
/// </remarks>
public sealed class TextLineDriver : IProbeDriver
{
    private const double LargestScale = 1e6;
    /// <summary>Largest <c>offset</c> of drivers that shift a number.</summary>
    internal const double MostOffset = 1e6;

    private const string FirstWanted = "a list of objects { \"ask\": ..., \"answer\": ... }";
    private const string AnswerWanted = "a regular expression of at most 1000 characters, such as \"^\\\\*OK$\"";

    private const string RefusalWanted = "a regular expression of at most 1000 characters, such as \"^\\\\*ER\"";

    private const string PatternWanted = "a regular expression of at most 1000 characters with the named group (?<value>...), such as \"^T=(?<value>[-+0-9.]+)C$\"";

    private static readonly Dictionary<string, LineEnding> Endings = new(StringComparer.Ordinal)
    {
        ["any"] = LineEnding.Any,
        ["lf"] = LineEnding.Lf,
        ["cr"] = LineEnding.Cr,
        ["crlf"] = LineEnding.CrLf,
    };

    private static readonly Dictionary<string, char> DecimalMarks = new(StringComparer.Ordinal) { ["."] = '.', [","] = ',' };

    private static readonly Dictionary<string, LineChecksum> Checksums = new(StringComparer.Ordinal)
    {
        ["xor"] = LineChecksum.Xor,
        ["crc-8"] = LineChecksum.Crc8,
        ["crc-16-modbus"] = LineChecksum.Crc16Modbus,
    };

    private static readonly Dictionary<string, Quality> Meanings = new(StringComparer.Ordinal)
    {
        ["good"] = Quality.Good,
        ["suspect"] = Quality.Suspect,
        ["fault"] = Quality.Fault,
    };

    public string Word => "text-line";

    public string BusKind => SerialBusKind.Name;

    public string? Notes => "text-line";

    public BenchAdvice Advice { get; } = new(
        "Is the instrument on, and is its plug in this computer ('ls -l /dev/serial/by-id')? Do baud, parity and stop bits match its manual? Is \"ask\" what it wants, with its line ending?",
        "Compare the line shown with \"pattern\" and \"unit\"; a wrong speed or parity shows as odd characters.");

    public FirstSettings Begin(Quantity measures, string place)
    {
        var asked = measures switch
        {
            Quantity.Ph => "PH",
            Quantity.Orp => "ORP",
            Quantity.Temperature => "T",
            _ => measures.Word().ToUpperInvariant(),
        };
        return new(
            $$"""{ "ask": "{{asked}}?\\r", "pattern": "^(?<value>[-+]?[0-9.]+)$", "unit": "{{measures.Unit()}}" }""",
            "From the instrument's manual: what it is asked (leave \"ask\" out when it sends by itself), and how its answer looks.");
    }

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        var unit = ReadUnit(settings, measures);
        var line = ReadLine(settings, measures);
        return new(unit, (bus, _, probe, known) => Create((SerialBus)bus, probe, line, known)) { Asked = line.Ask is { } ask ? new(ask.Question, line.Pattern) : null };
    }

    private static IProbe Create(SerialBus bus, ProbeDefinition probe, TextLineSettings line, KnownTemperatures known)
    {
        if (line.Ask is not { } ask)
        {
            return new StreamedLineProbe(bus, probe, line);
        }

        bus.Expect(new(ask.Question, line.Pattern));
        foreach (var command in line.First)
        {
            bus.Expect(new(command.Ask.Text, new LinePattern(command.Answer, new Dictionary<string, Quality>(), null)));
        }

        return new AskedLineProbe(bus, probe, line, ask, known);
    }

    /// <summary>Reads what is asked and how the answer looks.</summary>
    internal static TextLineSettings ReadLine(ConfigNode settings, Quantity measures) =>
        new(ReadAsk(settings, measures, isNeeded: false), settings.Choice("ending", Endings, LineEnding.Any), ReadLinePattern(settings, null))
        {
            First = [.. settings.Sections("first", FirstWanted).Select(ReadFirst)],
        };

    /// <summary>Reads how the value is got out of a line; without a <paramref name="usual"/> pattern there must be one.</summary>
    internal static LinePattern ReadLinePattern(ConfigNode settings, string? usual)
    {
        var pattern = ReadPattern(settings, usual);
        var status = ReadStatus(settings, pattern);
        var checksum = ReadChecksum(settings, pattern);
        return new LinePattern(pattern, status, checksum, ReadForm(settings, "refuse", RefusalWanted))
        {
            Scale = ReadScale(settings),
            Offset = settings.Number("offset", -MostOffset, MostOffset, 0),
            DecimalMark = settings.Choice("decimal", DecimalMarks, '.'),
        };
    }

    /// <summary>Reads <c>ask</c>; what measures the temperature itself cannot be told it.</summary>
    internal static AskText? ReadAsk(ConfigNode settings, Quantity measures, bool isNeeded)
    {
        if (isNeeded)
        {
            settings.Text("ask", AskText.Wanted);
        }

        var ask = ReadAsk(settings);
        if (ask?.NeedsTemperature == true && measures == Quantity.Temperature)
        {
            settings.Faults.Add(settings.PathOf("ask"), ConfigNode.Quote(ask.Text), $"no {AskText.TemperatureHole}, which is for instruments that are told the temperature");
        }

        return ask;
    }

    /// <summary>Reads <c>scale</c>, as every driver of this bus does.</summary>
    internal static double ReadScale(ConfigNode settings)
    {
        var scale = settings.Number("scale", -LargestScale, LargestScale, 1);
        if (scale == 0)
        {
            settings.Faults.Add(settings.PathOf("scale"), "0", "a factor other than 0");
        }

        return scale;
    }

    /// <summary>Reads <c>unit</c>, as every driver of this bus does.</summary>
    internal static SampleUnit ReadUnit(ConfigNode settings, Quantity measures)
    {
        var wanted = SampleUnit.Wanted(measures);
        var text = settings.Text("unit", wanted);
        if (SampleUnit.TryParse(text, measures, out var unit))
        {
            return unit;
        }

        if (text.Length > 0)
        {
            settings.Faults.Add(settings.PathOf("unit"), ConfigNode.Quote(text), wanted);
        }

        return SampleUnit.Canonical(measures);
    }

    private static FirstCommand ReadFirst(ConfigNode section)
    {
        section.Text("ask", AskText.Wanted);
        section.Text("answer", AnswerWanted);
        var ask = ReadAsk(section);
        if (ask?.NeedsTemperature == true)
        {
            section.Faults.Add(section.PathOf("ask"), ConfigNode.Quote(ask.Text), $"no {AskText.TemperatureHole}, which belongs into the question of each reading");
        }

        var answer = ReadForm(section, "answer", AnswerWanted);
        section.Done();
        return new(ask ?? new("", default), answer ?? LineForm.Any(LinePattern.ValueGroup));
    }

    private static AskText? ReadAsk(ConfigNode settings)
    {
        if (settings.OptionalText("ask", AskText.Wanted) is not { Length: > 0 } text)
        {
            return null;
        }

        if (!AskText.TryParse(text, out var ask))
        {
            settings.Faults.Add(settings.PathOf("ask"), ConfigNode.Quote(text), AskText.Wanted);
        }

        return ask;
    }

    private static LineForm ReadPattern(ConfigNode settings, string? usual)
    {
        var text = usual is null ? settings.Text("pattern", PatternWanted) : settings.OptionalText("pattern", PatternWanted, usual)!;
        if (text.Length > 0)
        {
            if (LineForm.TryRead(text) is { } pattern && pattern.Has(LinePattern.ValueGroup))
            {
                return pattern;
            }

            settings.Faults.Add(settings.PathOf("pattern"), ConfigNode.Quote(text), PatternWanted);
        }

        return LineForm.Any(LinePattern.ValueGroup);
    }

    /// <summary>An optional pattern of a whole line.</summary>
    private static LineForm? ReadForm(ConfigNode settings, string key, string wanted)
    {
        if (settings.OptionalText(key, wanted) is not { Length: > 0 } text)
        {
            return null;
        }

        if (LineForm.TryRead(text) is { } pattern)
        {
            return pattern;
        }

        settings.Faults.Add(settings.PathOf(key), ConfigNode.Quote(text), wanted);
        return null;
    }

    private static Dictionary<string, Quality> ReadStatus(ConfigNode settings, LineForm pattern)
    {
        if (settings.OptionalSection("status") is not { } section)
        {
            return [];
        }

        var words = section.Keys.ToDictionary(word => word, word => section.Choice(word, Meanings, Quality.Fault, required: true), StringComparer.Ordinal);
        if (words.Count == 0 && !section.IsBroken)
        {
            settings.Faults.Add(section.Path, "an empty object", "each status word with \"good\", \"suspect\" or \"fault\"");
        }

        NeedGroup(section, pattern, LinePattern.StatusGroup);
        return words;
    }

    private static LinePattern.ChecksumField? ReadChecksum(ConfigNode settings, LineForm pattern)
    {
        if (settings.OptionalSection("checksum") is not { } section)
        {
            return null;
        }

        var kind = section.Choice("kind", Checksums, LineChecksum.Xor, required: true);
        var group = section.Text("group", "the name of the pattern's group that holds the checksum");
        var over = section.OptionalText("over", "the name of the pattern's group that the checksum covers");
        NeedGroup(section, pattern, group);
        NeedGroup(section, pattern, over);
        section.Done();
        return new LinePattern.ChecksumField(kind, group, over);
    }

    private static void NeedGroup(ConfigNode section, LineForm pattern, string? group)
    {
        if (!string.IsNullOrEmpty(group) && !pattern.Has(group))
        {
            section.Faults.Add(section.Path, $"without a group in the pattern called \"{group}\"", $"(?<{group}>...) in the pattern");
        }
    }
}
