using System.Diagnostics;
using System.Globalization;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// Instruments that are unplugged, slow, split, silent and late, in front of the running daemon: no value is given to the wrong question, a fault
/// is told and over in time, other probes keep their beat, and nothing is left behind.
/// </summary>
[Trait("Campaign", "faults")]
public sealed class PortTests
{
    private const double Told = 3;
    private const double Back = 5;

    /// <summary>Beats of the probe on a bus without a fault that may be late on a busy machine.</summary>
    private const double LongestGap = 1;

    [Theory]
    [InlineData("text")]
    [InlineData("modbus")]
    public async Task Ports_pulled_again_and_again_are_told_come_back_and_leave_nothing_open(string kind)
    {
        var pulls = FaultFigures.Size(4, 50);
        using var studio = new Studio();
        await using var instrument = await InstrumentAsync(kind);
        await using var daemon = await StartAsync(studio, kind, instrument);
        var (told, back) = (new List<double>(), new List<double>());
        var random = new Random(50);
        await PullAsync(daemon, instrument, random, [], []);
        var before = daemon.Look();
        for (var pull = 0; pull < pulls; pull++)
        {
            await PullAsync(daemon, instrument, random, told, back);
        }

        var (campaign, size) = ($"port pulled, {kind}", Invariant($"{pulls} pulls"));
        FaultFigures.AtMost(campaign, size, "told within", told.Max(), Told, "s");
        FaultFigures.AtMost(campaign, size, "back within", back.Max(), Back, "s");
        HoldFlat(campaign, size, before, daemon.Look());
        HoldAnswers(campaign, size, kind, await daemon.StopAndReadAsync("one"));
    }

    [Theory]
    [InlineData("text")]
    [InlineData("modbus")]
    public async Task A_port_that_was_away_for_long_is_back_as_soon_as_one_that_was_not(string kind)
    {
        var away = FaultFigures.Size(TimeSpan.FromSeconds(8), TimeSpan.FromSeconds(90));
        using var studio = new Studio();
        await using var instrument = await InstrumentAsync(kind);
        await using var daemon = await StartAsync(studio, kind, instrument);
        await instrument.TellAsync("hangup");
        await Task.Delay(away, TestContext.Current.CancellationToken);
        await instrument.TellAsync("return");
        var back = await TimeAsync(() => GoodAsync(daemon, "one-t", wanted: true));
        FaultFigures.AtMost($"port away for long, {kind}", Invariant($"{away.TotalSeconds:0} s"), "back within", back, Back, "s");
    }

    [Theory]
    [InlineData("text")]
    [InlineData("modbus")]
    public async Task Slow_split_silent_and_late_answers_are_never_given_to_the_wrong_question(string kind)
    {
        var each = FaultFigures.Size(TimeSpan.FromSeconds(1.2), TimeSpan.FromSeconds(20));
        string[] manners = ["late 0.09", "late 0.13", "late 0.25", "late 0.7", "split on", "drip 0.005", "drip 0.02", "silent on"];
        using var studio = new Studio();
        await using var instrument = await InstrumentAsync(kind);
        await using var daemon = await StartAsync(studio, kind, instrument);
        var before = daemon.Look();
        var (silent, back) = (0.0, 0.0);
        foreach (var manner in manners)
        {
            await instrument.TellAsync(manner);
            if (manner == "silent on")
            {
                silent = await TimeAsync(() => GoodAsync(daemon, "one-t", wanted: false));
            }

            await Task.Delay(each, TestContext.Current.CancellationToken);
            var word = manner.Split(' ')[0];
            await instrument.TellAsync($"{word} {(word is "late" or "drip" ? "0" : "off")}");
            back = Math.Max(back, await TimeAsync(() => GoodAsync(daemon, "one-t", wanted: true)));
        }

        var (campaign, size) = ($"slow, split, silent, late, {kind}", Invariant($"{manners.Length} manners, {each.TotalSeconds:0.#} s each"));
        FaultFigures.AtMost(campaign, size, "silence told within", silent, Told, "s");
        FaultFigures.AtMost(campaign, size, "back within", back, Back, "s");
        HoldFlat(campaign, size, before, daemon.Look());
        HoldAnswers(campaign, size, kind, await daemon.StopAndReadAsync("one"));
        var other = await daemon.ReadAsync("other");
        FaultFigures.AtMost(campaign, size, "longest gap of a probe on another bus", KeptReading.LongestGap(other).TotalSeconds, LongestGap, "s");
        Assert.All(other, reading => Assert.Equal("good", reading.Quality));
    }

    private static async Task<PtyInstrument> InstrumentAsync(string kind)
    {
        if (kind == "text")
        {
            var text = await PtyInstrument.AskedAsync();
            await text.TellAsync("bare on");
            return text;
        }

        var modbus = await PtyInstrument.ModbusAsync();
        await FaultProbes.FillAsync(modbus);
        return modbus;
    }

    /// <summary>The daemon with vat "one" on the instrument and vat "other" on a bus that has no fault; both in their beat.</summary>
    private static async Task<WatchedDaemon> StartAsync(Studio studio, string kind, PtyInstrument instrument)
    {
        studio.WriteConfig(
            $$"""
            "bench": { "kind": "serial", "port": "{{instrument.Port}}", "baud": 9600, "replyTimeout": "120 ms" },
            "sound": { "kind": "simulation", "start": "45 °C" }
            """,
            $$"""
            {{Studio.Vat("one", kind == "text" ? FaultProbes.Text("bench", "200 ms", bare: true) : FaultProbes.Modbus("bench", "200 ms", "one"))}},
            {{Studio.Vat("other", """{ "id": "sound-t", "measures": "temperature", "bus": "sound", "driver": "simulated", "every": "200 ms" }""")}}
            """);
        var daemon = await WatchedDaemon.StartAsync(studio);
        await daemon.EventuallyAsync(() => GoodAsync(daemon, "one-t", wanted: true), "the instrument is heard");
        return daemon;
    }

    private static async Task PullAsync(WatchedDaemon daemon, PtyInstrument instrument, Random random, List<double> told, List<double> back)
    {
        await instrument.TellAsync("hangup");
        told.Add(await TimeAsync(() => GoodAsync(daemon, "one-t", wanted: false)));
        await Task.Delay(TimeSpan.FromSeconds(0.2 + 2 * random.NextDouble()), TestContext.Current.CancellationToken);
        await instrument.TellAsync("return");
        back.Add(await TimeAsync(() => GoodAsync(daemon, "one-t", wanted: true)));
    }

    private static async Task<bool> GoodAsync(WatchedDaemon daemon, string probe, bool wanted) =>
        await daemon.MetricAsync("vatwatch_measurement_good", $"probe=\"{probe}\"") == (wanted ? 1 : 0);

    /// <summary>Seconds until it is so, 45 at most.</summary>
    private static async Task<double> TimeAsync(Func<Task<bool>> condition)
    {
        var watch = Stopwatch.StartNew();
        while (watch.Elapsed < TimeSpan.FromSeconds(45) && !await condition())
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        return watch.Elapsed.TotalSeconds;
    }

    private static void HoldFlat(string campaign, string size, ProcessLook before, ProcessLook after)
    {
        FaultFigures.AtMost(campaign, size, "files more", after.Files - before.Files, 2);
        FaultFigures.AtMost(campaign, size, "threads more", after.Threads - before.Threads, 6);
        FaultFigures.AtMost(campaign, size, "memory more", after.ResidentMegabytes - before.ResidentMegabytes, 25, "MB");
    }

    /// <summary>Every number lies where the numbers of its own question lie, whatever its quality.</summary>
    private static void HoldAnswers(string campaign, string size, string kind, IReadOnlyList<KeptReading> kept)
    {
        var ranges = new Dictionary<string, (double Low, double High)> { ["one-t"] = (45, 46), ["one-ph"] = (9.5, 10), ["one-orp"] = (-660, -650), ["one-room"] = (9.9, 10.1) };
        var spoken = kept.Where(reading => reading.Value is not null).ToList();
        var wrong = spoken.Count(reading => reading.Value < ranges[reading.Probe].Low || reading.Value > ranges[reading.Probe].High);
        Assert.Equal(kind == "text" ? 3 : 2, spoken.Select(reading => reading.Probe).Distinct().Count());
        FaultFigures.AtMost(campaign, Invariant($"{size}, {spoken.Count} answers"), "given to the wrong question", wrong, 0);
    }

    private static string Invariant(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
