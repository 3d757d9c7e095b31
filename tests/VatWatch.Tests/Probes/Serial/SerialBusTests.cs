using System.Diagnostics;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>A real pseudo-terminal with the instrument in another process.</summary>
[Trait("Starts", "processes")]
public sealed class SerialBusTests
{
    private const string Liquor = """{ "ask": "T?\\r", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" }""";
    private const string AnyNumber = """{ "ask": "ORP?\\r", "pattern": "=(?<value>[-+0-9.]+)", "unit": "mV" }""";

    /// <summary>Longer than a busy machine lets another process wait.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(1);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_asked_instrument_gives_its_value()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Liquor);
        await stepped.Bus.OpenAsync(Cancel);

        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
        await instrument.TellAsync("set T -3.25");
        Assert.Equal(Sample.Good(-3.25), await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task A_split_answer_is_put_together()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Liquor);
        await stepped.Bus.OpenAsync(Cancel);
        await instrument.TellAsync("split on");

        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task Every_line_ending_is_understood()
    {
        foreach (var (ending, word) in new[] { (@"\n", "lf"), (@"\r\n", "lf"), (@"\r", "cr"), (@"\r\n", "crlf"), (@"\r\n", "cr") })
        {
            await using var instrument = await PtyInstrument.AskedAsync(ending);
            await using var stepped = new SteppedBus(instrument.Port);
            var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Liquor.Replace(" }", $$""", "ending": "{{word}}" }"""));
            await stepped.Bus.OpenAsync(Cancel);

            Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
            Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
        }
    }

    [Fact]
    public async Task Garbage_is_a_fault_and_silence_is_missing()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Liquor);
        await stepped.Bus.OpenAsync(Cancel);

        await instrument.TellAsync("garbage on");
        Assert.Equal(Quality.Fault, (await stepped.UnansweredAsync(probe, "\r\n")).Quality);
        await instrument.TellAsync("garbage off");
        await instrument.TellAsync("silent on");
        var silent = await stepped.UnansweredAsync(probe);
        Assert.Equal(Sample.Missing(@"no answer to 'T?\r' within 300 ms"), silent);
        await instrument.TellAsync("silent off");
        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task A_late_answer_is_never_taken_for_the_next_question()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var bus = SerialBench.Bus(instrument.Port, """, "replyTimeout": "100 ms" """);

        // Both patterns would take the other's line.
        var liquor = SerialBench.Text(bus, "liquor", Quantity.Temperature, AnyNumber.Replace("ORP?", "T?").Replace("mV", "°C"));
        var redox = SerialBench.Text(bus, "redox", Quantity.Orp, AnyNumber);
        await bus.OpenAsync(Cancel);
        foreach (var late in new[] { "0.12", "0.19", "0.25", "0.31", "0.7" })
        {
            await instrument.TellAsync($"late {late}");
            for (var round = 0; round < 4; round++)
            {
                await TakeBothAsync(late);
            }
        }

        // As soon as the instrument is well again, so are the readings.
        await instrument.TellAsync("late 0");
        var well = Stopwatch.StartNew();
        while (!await TakeBothAsync("0"))
        {
            Assert.True(well.Elapsed < Patience);
        }

        async Task<bool> TakeBothAsync(string late)
        {
            var warm = await liquor.TakeSampleAsync(Cancel);
            var potential = await redox.TakeSampleAsync(Cancel);
            Assert.True(warm.Value is null or 45.2, $"{warm} when {late} s late");
            Assert.True(potential.Value is null or -655, $"{potential} when {late} s late");
            await Task.Delay(100, Cancel);
            return warm.Value is not null && potential.Value is not null;
        }
    }

    [Fact]
    public async Task Probes_that_ask_the_same_share_one_exchange()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var liquor = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Column(0, "°C"), 5);
        var alkali = SerialBench.Text(stepped.Bus, "alkali", Quantity.Ph, Column(1, "pH"), 5);
        var redox = SerialBench.Text(stepped.Bus, "redox", Quantity.Orp, Column(2, "mV"), 5);
        var count = SerialBench.Text(stepped.Bus, "count", Quantity.Level, """{ "ask": "N?\\r", "pattern": "^(?<value>[0-9]+)$", "unit": "%" }""", 5);
        await stepped.Bus.OpenAsync(Cancel);

        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(liquor));
        Assert.Equal(Sample.Good(9.81), await stepped.AnsweredAsync(alkali));
        Assert.Equal(Sample.Good(-655), await stepped.AnsweredAsync(redox));
        Assert.Equal(Sample.Good(2), await stepped.AnsweredAsync(count));

        // The same probe again is a new question, so that no line is counted twice.
        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(liquor));
        Assert.Equal(Sample.Good(4), await stepped.AnsweredAsync(count));
    }

    [Fact]
    public async Task A_streaming_instrument_is_listened_to_by_several_probes()
    {
        await using var instrument = await PtyInstrument.StreamingAsync(0.2);
        await using var stepped = new SteppedBus(instrument.Port);
        var liquor = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Streamed(0, "°C"));
        var redox = SerialBench.Text(stepped.Bus, "redox", Quantity.Orp, Streamed(2, "mV"));
        await stepped.Bus.OpenAsync(Cancel);

        Assert.True(liquor.Listens);
        Assert.Equal(Sample.Good(45.2), await liquor.TakeSampleAsync(Cancel));
        Assert.Equal(Sample.Good(-655), await redox.TakeSampleAsync(Cancel));
        await instrument.TellAsync("silent on");
        Assert.Equal(Sample.Missing("nothing was heard within 1 s"), await AfterGoodAsync(""));
        await instrument.TellAsync("silent off");
        await instrument.TellAsync("text ORP OVER");
        Assert.Equal(Sample.Fault("no line matched the pattern within 1 s; the last was '45.20,9.810,OVER'"), await AfterGoodAsync("OVER\r\n"));

        // Lines that were on their way come first.
        async Task<Sample> AfterGoodAsync(string heard)
        {
            var sample = await stepped.UnansweredAsync(redox, heard);
            return sample.Quality == Quality.Good ? await AfterGoodAsync(heard) : sample;
        }
    }

    [Fact]
    public async Task A_hang_up_is_noticed_while_nobody_asks_and_closing_returns()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Liquor);
        await stepped.Bus.OpenAsync(Cancel);
        await stepped.AnsweredAsync(probe);

        var watch = stepped.Bus.WatchForLossAsync(Cancel);
        await instrument.TellAsync("hangup");
        var loss = await Assert.ThrowsAsync<BusLostException>(() => watch.WaitAsync(Patience, Cancel));
        Assert.Equal("the device hung up", loss.Message);
        await Assert.ThrowsAsync<BusLostException>(() => stepped.AnsweredAsync(probe));
        await stepped.Bus.CloseAsync().AsTask().WaitAsync(Patience, Cancel);
        await Assert.ThrowsAsync<BusLostException>(async () => await stepped.Bus.OpenAsync(Cancel));
        await instrument.TellAsync("return");
        await stepped.Bus.OpenAsync(Cancel);
        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task What_cannot_be_opened_is_told_in_words()
    {
        await using var missing = SerialBench.Bus("/dev/serial/by-id/no-such-instrument");
        var loss = await Assert.ThrowsAsync<BusLostException>(async () => await missing.OpenAsync(Cancel));
        Assert.Equal("cannot open /dev/serial/by-id/no-such-instrument: there is no such device; look whether the instrument is plugged in", loss.Message);

        var path = Path.GetTempFileName();
        await using var file = SerialBench.Bus(path);
        loss = await Assert.ThrowsAsync<BusLostException>(async () => await file.OpenAsync(Cancel));
        Assert.Equal($"cannot open {path}: it is no serial port, or another program has it", loss.Message);
        File.Delete(path);
    }

    [Fact]
    public async Task The_start_of_a_line_is_told_without_breaking_the_line_of_a_log()
    {
        await using var instrument = await PtyInstrument.AskedAsync(@"\r\n");
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, Liquor);
        await stepped.Bus.OpenAsync(Cancel);
        await instrument.TellAsync("manner start");
        var sample = await stepped.UnansweredAsync(probe, "T=4");
        Assert.Equal(Sample.Fault(@"the answer to 'T?\r' within 300 ms was the start of a line, 'T=4'"), sample);
    }

    [Fact]
    public async Task A_port_whose_opening_never_returns_is_not_opened_a_second_time()
    {
        using var returns = new ManualResetEventSlim();
        var tries = 0;
        var settings = new SerialSettings { Port = "/dev/stuck" };
        await using var bus = new SerialBus(new BusId("bench"), settings, TimeProvider.System, _ =>
        {
            Interlocked.Increment(ref tries);
            returns.Wait(Cancel);
            throw new BusLostException("cannot open /dev/stuck: it is gone");
        });
        var first = bus.OpenAsync(Cancel).AsTask();
        await Eventually.TrueAsync(() => Volatile.Read(ref tries) == 1, "the first try is under way");
        var loss = await Assert.ThrowsAsync<BusLostException>(async () => await bus.OpenAsync(Cancel));
        Assert.Equal("an earlier try to open /dev/stuck has not come back yet", loss.Message);
        returns.Set();
        await Assert.ThrowsAsync<BusLostException>(() => first);
        await Assert.ThrowsAsync<BusLostException>(async () => await bus.OpenAsync(Cancel));
        Assert.Equal(2, tries);
    }

    private static string Column(int column, string unit) =>
        $$"""{ "ask": "ALL?\\r", "pattern": "{{ColumnPattern(column)}}", "unit": "{{unit}}" }""";

    private static string Streamed(int column, string unit) => $$"""{ "pattern": "{{ColumnPattern(column)}}", "unit": "{{unit}}" }""";

    private static string ColumnPattern(int column) =>
        "^" + string.Join(",", Enumerable.Range(0, 3).Select(at => at == column ? "(?<value>[-+0-9.]+)" : "[^,]*")) + "$";
}
