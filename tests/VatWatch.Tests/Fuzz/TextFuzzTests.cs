using System.Globalization;
using System.Text;
using CsCheck;
using VatWatch.Alarms.Acts;
using VatWatch.Calibration;
using VatWatch.Notifications.Mqtt;
using VatWatch.Notifications.Mqtt.Commands;
using VatWatch.Probes.Recorded;
using VatWatch.Testing.Fuzz;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Fuzz;

/// <summary>Mutated texts through everything that reads what people, programs and other machines write.</summary>
public sealed class TextFuzzTests
{
    private const int Few = 6000;

    private static readonly string[] Logs =
    [
        "time,probe,value,unit,quality,reason\r\n2026-03-01T21:30:05Z,liquor,46.2,°C,good,\r\n2026-03-01T21:30:10.5+02:00,liquor,,,missing,\"no answer, twice\"\r\n",
        "Probe;Time\n", "value,time,probe\n1e3,20260301T213005Z,\"a \"\"quoted\"\" one\"\n-0,2026-03-01 21:30,x\r\r\n\n,2026-03-01 21:30:59.1234567,x",
    ];

    private static readonly string[] Commands =
    [
        """{"alarm":"overheat","by":"Ada"}""", """{"alarm":"overheat","by":"Ada","minutes":20,"reason":"probe out for cleaning"}""", """{"by":"Ada","text":"lid was closed"}""",
        """{"alarm":"probe-silent.liquor","by":"\u0041da","minutes":1.5e1,"reason":"ÿ"}""",
    ];

    private static readonly string[] Quantities = ["2 oz", "118 °F", "-660 mV", "20 mV/h", "40 gal", "1.5e3 g", "90 s", "10 kΩ", "2 meq/L", "150 ppm as CaCO3", "40 %", "6.5 °dH", ".5 imp gal", "− 3 K"];

    private static readonly QuantityKind[] Kinds =
    [
        QuantityKind.Temperature, QuantityKind.TemperatureDifference, QuantityKind.Volume, QuantityKind.Mass, QuantityKind.Potential, QuantityKind.PotentialRate, QuantityKind.Duration,
        QuantityKind.Power, QuantityKind.Length, QuantityKind.Resistance, QuantityKind.Percent, QuantityKind.Alkalinity, QuantityKind.CarryOver,
    ];

    [Fact]
    public void Every_mutated_log_gives_rows_that_read_the_same_again_and_faults_that_say_what_was_seen_and_wanted() => Cases.Hold(Mutants.Of(Logs), Few, log =>
    {
        List<RecordedRow> rows;
        try
        {
            rows = Read(log, fault =>
            {
                Assert.InRange(fault.Sentence.Length, 10, 300);
                Assert.DoesNotContain(fault.ToString(), char.IsControl);
            });
        }
        catch (RecordedLogException refused)
        {
            Assert.Contains("wanted", refused.Message, StringComparison.Ordinal);
            Assert.DoesNotContain(refused.Message, char.IsControl);
            return;
        }

        var again = Read(Write(rows), fault => Assert.Fail(fault.ToString()));
        Assert.Equal(rows.Select(row => row with { Line = 0 }), again.Select(row => row with { Line = 0 }));
    }, log => log);

    [Fact]
    public void Ten_megabytes_without_a_line_end_are_one_fault_and_take_little_memory()
    {
        var faults = new List<RecordedLogFault>();
        using var log = new LongLine("time,probe,value\n", 10 * 1024 * 1024);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Empty(RecordedLog.Read(log, faults.Add));
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1024 * 1024);
        Assert.Contains("more than 10000 characters; wanted a short line", Assert.Single(faults).ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_mutated_command_is_an_act_within_its_bounds_or_a_plain_refusal() => Cases.Hold(
        Gen.Select(Mutants.Of(Commands.Select(Encoding.UTF8.GetBytes).ToList()), Gen.Enum<AlarmActKind>()),
        Few,
        one =>
        {
            AlarmAct? act = null;
            if (!AlarmCommand.TryParse(one.Item2, new("madder-lane"), one.Item1, out var request, out var fault) || !request.TryMake(out act, out fault))
            {
                Assert.Contains("wanted", fault, StringComparison.Ordinal);
                Assert.DoesNotContain(fault, char.IsControl);
                Assert.InRange(fault.Length, 1, 400);
                return;
            }

            Assert.InRange(act.By.Length, 1, AlarmRequest.LongestBy);
            Assert.DoesNotContain(act.By + act.Text, char.IsControl);
            Assert.InRange(act.For.TotalMinutes, 0, AlarmRequest.LongestMinutes);
            Assert.True(act.Text is null or { Length: >= 1 and <= AlarmRequest.LongestText });
        },
        one => Cases.Show(one.Item1));

    [Fact]
    public void Every_topic_names_a_vat_and_an_act_or_nothing()
    {
        var topics = new MqttTopics("hill-studio");
        Cases.Hold(Mutants.Of((string[])["vatwatch/hill-studio/madder-lane/command/acknowledge", "vatwatch/hill-studio/daemon/command/note", "a/b/c"]), Few, topic =>
        {
            if (topics.TryReadCommand(topic, out var vat, out var kind))
            {
                Assert.Equal(topic, kind is { } act ? topics.Command(vat, act) : topics.HeaterCommand(vat));
                Assert.True(ConfigNode.IsName(vat.Value));
            }

            Assert.False(topics.MayAnswer(topic) && topic.StartsWith("vatwatch/", StringComparison.Ordinal) && !topic.Contains("/command/reply/", StringComparison.Ordinal));
        }, topic => topic);
    }

    [Fact]
    public void Every_mutated_quantity_is_a_finite_number_that_reads_the_same_again_or_none() => Cases.Hold(
        Gen.Select(Mutants.Of(Quantities), Gen.Int[0, Kinds.Length - 1]),
        Few,
        one =>
        {
            var (text, which) = one;
            if (!Kinds[which].TryParse(text, out var value))
            {
                Assert.True(double.IsNaN(value) || double.IsInfinity(value));
                return;
            }

            Assert.True(double.IsFinite(value));
            var shown = Kinds[which].Show(value);
            Assert.True(Math.Abs(value) > 1e11 || Kinds[which].TryParse(shown, out var again) && Math.Abs(again - value) <= 2 + Math.Abs(value) * 1e-3, $"{text} is {value}, shown as {shown}");
        },
        one => $"{Kinds[one.Item2].Wanted(0, 1)}: {one.Item1}");

    [Fact]
    public void Every_mutated_calibration_is_one_that_reads_the_same_again_or_a_clause() => Cases.Hold(
        Mutants.Of(Kept),
        Few,
        json =>
        {
            if (!CalibrationDocument.TryRead(json, out var calibration, out var whyNot))
            {
                Assert.NotEmpty(whyNot);
                return;
            }

            var written = CalibrationDocument.Write(calibration);
            Assert.True(CalibrationDocument.TryRead(written, out var again, out whyNot), whyNot);
            Assert.Equal(written, CalibrationDocument.Write(again));
        },
        json => json);

    [Fact]
    public void Free_words_are_clean_after_one_cleaning() => Cases.Hold(
        Mutants.Of((string[])["Ada", "the lid\nwas\topen", "\u202Eevil\u200B \uD83E\uDDF6 yarn", "  "]),
        Few,
        text =>
        {
            var clean = FreeText.Clean(text);
            Assert.DoesNotContain(clean, char.IsControl);
            Assert.Equal(clean, FreeText.Clean(clean));
        },
        text => text);

    [Fact]
    public void A_fault_of_the_configuration_is_one_short_line_whatever_stands_in_it() => Cases.Hold(
        Mutants.Of((string[])["""{ "site": "hill\nstudio", "number": 5, "x\ty": { "site": [] } }""", """{ "site": 99999999999, "number": "five" }"""]),
        Few,
        json =>
        {
            var faults = new ConfigFaults();
            if (ConfigFile.Parse(Encoding.UTF8.GetBytes(json), faults) is { } node)
            {
                node.Name("site");
                node.Number("number", 1, 2);
                node.Done();
            }

            foreach (var fault in faults.All.Select(fault => fault.ToString()))
            {
                Assert.InRange(fault.Length, 10, 400);
                Assert.DoesNotContain(fault, char.IsControl);
                Assert.Contains("; wanted ", fault, StringComparison.Ordinal);
            }
        },
        json => json);

    [Fact]
    public void Sixty_thousand_wrong_keys_are_told_without_a_hang()
    {
        var faults = new ConfigFaults();
        var json = "{" + string.Join(',', Enumerable.Range(0, 60_000).Select(n => $"\"k{n}\":0")) + "}";
        ConfigFile.Parse(Encoding.UTF8.GetBytes(json), faults)!.Done();
        Assert.Equal(60_000, faults.All.Count);
    }

    private static string[] Kept { get; } =
    [
        """{"version":1,"kind":"ph","fit":"line","slopeMillivoltsPerPh":-58.1,"offsetMillivolts":3.2,"temperatureC":25,"extrapolated":false,"points":[{"buffer":"pH 7","ph":7,"millivolts":3.2,"temperatureC":25,"settlingSeconds":31},{"buffer":"pH 10","ph":10,"millivolts":-171,"temperatureC":25,"extrapolated":true}]}""",
        """{"version":1,"kind":"orp","solution":"light","reference":"Ag/AgCl 3 M KCl","measuredMillivolts":212,"offsetMillivolts":-12.5,"temperatureC":24.5,"settlingSeconds":40}""",
    ];

    private static List<RecordedRow> Read(string log, Action<RecordedLogFault> onFault)
    {
        using var reader = new StringReader(log);
        return [.. RecordedLog.Read(reader, onFault)];
    }

    private static string Write(IEnumerable<RecordedRow> rows) => "time,probe,value,unit,quality,reason\n" + string.Concat(rows.Select(row => string.Join(
        ',', row.Time.ToString("O", CultureInfo.InvariantCulture), Quoted(row.Probe.Value), row.Value?.ToString("R", CultureInfo.InvariantCulture), Quoted(row.Unit), row.Quality, Quoted(row.Reason)) + "\n"));

    private static string Quoted(string? text) => text is null ? "" : $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    /// <summary>A head, and then one line that does not end.</summary>
    private sealed class LongLine(string head, int length) : TextReader
    {
        private int _at;

        public override int Peek() => _at < head.Length ? head[_at] : _at < head.Length + length ? 'x' : -1;

        public override int Read()
        {
            var next = Peek();
            _at++;
            return next;
        }
    }
}
