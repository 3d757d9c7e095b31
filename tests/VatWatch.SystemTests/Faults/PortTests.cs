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
[Trait("Runs", "alone")]
public sealed class PortTests
{
    private const double Told = 3;
    private const double Back = 5;

    /// <summary>Beats of the probe on a bus without a fault that may be late on a busy machine, s.</summary>
    private const double LongestGap = 3;

    [Theory]
    [InlineData("text")]
    [InlineData("modbus")]
    public async Task An_instrument_that_is_unplugged_slow_split_silent_or_late_never_misleads_and_comes_back(string kind)
    {
        using var studio = new Studio();
        await using var instrument = await InstrumentAsync(kind);
        await using var daemon = await StartAsync(studio, kind, instrument);
        await PullAgainAndAgainAsync(kind, daemon, instrument);
        await StayAwayAsync(kind, daemon, instrument);
        await MisbehaveAsync(kind, daemon, instrument);
        var kept = await daemon.StopAndReadAsync("one");
        HoldAnswers($"port, {kind}", kind, kept);
        var other = await daemon.ReadAsync("other");
        FaultFigures.AtMost($"port, {kind}", "a probe on another bus at 5 Hz", "longest gap", KeptReading.LongestGap(other).TotalSeconds, LongestGap, "s");
        Assert.All(other, reading => Assert.Equal("good", reading.Quality));
    }

    private static async Task PullAgainAndAgainAsync(string kind, WatchedDaemon daemon, PtyInstrument instrument)
    {
        var pulls = FaultFigures.Size(2, 25);
        var (told, back) = (new List<double>(), new List<double>());
        var random = new Random(50);
        var before = daemon.Evaluate();
        for (var pull = 0; pull < pulls; pull++)
        {
            await instrument.TellAsync("hangup");
            told.Add(await TimeAsync(() => GoodAsync(daemon, wanted: false)));
            await Task.Delay(TimeSpan.FromSeconds(0.2 + 2 * random.NextDouble()), TestContext.Current.CancellationToken);
            await instrument.TellAsync("return");
            back.Add(await TimeAsync(() => GoodAsync(daemon, wanted: true)));
            before = pull == WarmUp(pulls) ? daemon.Evaluate() : before;
        }

        Hold($"port pulled, {kind}", Invariant($"{pulls} pulls"), told, back, before, daemon.Evaluate());
    }

    private static async Task StayAwayAsync(string kind, WatchedDaemon daemon, PtyInstrument instrument)
    {
        var away = FaultFigures.Size(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(45));
        await instrument.TellAsync("hangup");
        await Task.Delay(away, TestContext.Current.CancellationToken);
        await instrument.TellAsync("return");
        FaultFigures.AtMost($"port away for long, {kind}", Invariant($"{away.TotalSeconds:0} s"), "back within", await TimeAsync(() => GoodAsync(daemon, wanted: true)), Back, "s");
    }

    private static async Task MisbehaveAsync(string kind, WatchedDaemon daemon, PtyInstrument instrument)
    {
        var each = FaultFigures.Size(TimeSpan.FromSeconds(0.5), TimeSpan.FromSeconds(10));
        string[] manners = FaultFigures.Size<string[]>(
            ["late 0.13", "late 0.7", "split on", "drip 0.005", "drip 0.02", "silent on"],
            ["late 0.09", "late 0.13", "late 0.25", "late 0.4", "late 0.7", "late 1.5", "split on", "drip 0.005", "drip 0.02", "drip 0.1", "silent on"]);
        var (told, back) = (new List<double>(), new List<double>());
        var before = daemon.Evaluate();
        foreach (var manner in manners)
        {
            await instrument.TellAsync(manner);
            if (manner == "silent on")
            {
                told.Add(await TimeAsync(() => GoodAsync(daemon, wanted: false)));
            }

            await Task.Delay(each, TestContext.Current.CancellationToken);
            var word = manner.Split(' ')[0];
            await instrument.TellAsync($"{word} {(word is "late" or "drip" ? "0" : "off")}");
            back.Add(await TimeAsync(() => GoodAsync(daemon, wanted: true)));
        }

        Hold($"slow, split, silent, late, {kind}", Invariant($"{manners.Length} manners, {each.TotalSeconds:0.#} s each"), told, back, before, daemon.Evaluate());
    }

    /// <summary>The first fifth is for warming up.</summary>
    private static int WarmUp(int times) => times / 5;

    private static void Hold(string campaign, string size, List<double> told, List<double> back, ProcessLook before, ProcessLook after)
    {
        FaultFigures.AtMost(campaign, size, "told within", told.Max(), Told, "s");
        FaultFigures.AtMost(campaign, size, "back within", back.Max(), Back, "s");
        FaultFigures.AtMost(campaign, size, "files more", after.Files - before.Files, 2);
        FaultFigures.AtMost(campaign, size, "threads more", after.Threads - before.Threads, 6);
        FaultFigures.AtMost(campaign, size, "memory more", after.ResidentMegabytes - before.ResidentMegabytes, FaultFigures.Size(60, 25), "MB");
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
        await daemon.EventuallyAsync(() => GoodAsync(daemon, wanted: true), "the instrument is heard");
        return daemon;
    }

    private static async Task<bool> GoodAsync(WatchedDaemon daemon, bool wanted) =>
        await daemon.MetricAsync("vatwatch_measurement_good", "probe=\"one-t\"") == (wanted ? 1 : 0);

    /// <summary>Seconds until it is so, 45 at most, less those that the machine let this test itself sleep longer than it had asked for. What the daemon takes to answer counts.</summary>
    private static async Task<double> TimeAsync(Func<Task<bool>> condition)
    {
        var pause = TimeSpan.FromMilliseconds(20);
        var (watch, overslept) = (Stopwatch.StartNew(), TimeSpan.Zero);
        while (watch.Elapsed - overslept < TimeSpan.FromSeconds(45) && !await condition())
        {
            var asleep = watch.Elapsed;
            await Task.Delay(pause, TestContext.Current.CancellationToken);
            overslept += watch.Elapsed - asleep - pause is var over && over > TimeSpan.Zero ? over : TimeSpan.Zero;
        }

        return (watch.Elapsed - overslept).TotalSeconds;
    }

    /// <summary>Every number lies where the numbers of its own question lie, whatever its quality.</summary>
    private static void HoldAnswers(string campaign, string kind, IReadOnlyList<KeptReading> kept)
    {
        var ranges = new Dictionary<string, (double Low, double High)> { ["one-t"] = (45, 46), ["one-ph"] = (9.5, 10), ["one-orp"] = (-660, -650), ["one-room"] = (9.9, 10.1) };
        var spoken = kept.Where(reading => reading.Value is not null).ToList();
        var wrong = spoken.Where(reading => reading.Value < ranges[reading.Probe].Low || reading.Value > ranges[reading.Probe].High).ToList();
        Assert.Equal(kind == "text" ? 3 : 2, spoken.Select(reading => reading.Probe).Distinct().Count());
        FaultFigures.AtMost(campaign, Invariant($"{spoken.Count} answers"), $"given to the wrong question{string.Concat(wrong.Select(reading => Invariant($" {reading.Probe}={reading.Value}")))}", wrong.Count, 0);
    }

    private static string Invariant(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
