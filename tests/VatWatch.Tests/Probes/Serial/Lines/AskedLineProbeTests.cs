using Microsoft.Extensions.Time.Testing;
using VatWatch.Probes;
using VatWatch.Probes.Serial.Lines;
using VatWatch.Testing.Instruments;

namespace VatWatch.Tests.Probes.Serial.Lines;

/// <summary>What an asked instrument is told before and with its question.</summary>
[Trait("Starts", "processes")]
public sealed class AskedLineProbeTests
{
    private const string First = """ "first": [ { "ask": "C,0\\r", "answer": "^\\*OK$" } ] """;
    private const string Liquor = """ "ask": "T?\\r", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" """;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_instrument_gets_its_first_command_once_for_each_opening()
    {
        await using var instrument = await PtyInstrument.ShyAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $"{{ {First}, {Liquor} }}");
        var count = SerialBench.Text(stepped.Bus, "count", Quantity.Temperature, $$"""{ {{First}}, "ask": "N?\\r", "pattern": "^(?<value>[0-9]+)$", "unit": "°C" }""");
        await stepped.Bus.OpenAsync(Cancel);
        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
        Assert.Equal(Sample.Good(3), await stepped.AnsweredAsync(count));

        await stepped.Bus.CloseAsync();
        await stepped.Bus.OpenAsync(Cancel);
        Assert.Equal(Sample.Good(5), await stepped.AnsweredAsync(count));
    }

    [Fact]
    public async Task A_first_command_that_is_not_confirmed_is_told_and_given_again()
    {
        await using var instrument = await PtyInstrument.ShyAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $$"""{ "first": [ { "ask": "X?\\r", "answer": "^\\*OK$" } ], {{Liquor}} }""");
        await stepped.Bus.OpenAsync(Cancel);
        Assert.Equal(Sample.Fault(@"the answer to 'X?\r' within 300 ms was '*WAIT', which does not match the pattern"), await stepped.UnansweredAsync(probe, "*WAIT\r\n"));
    }

    [Fact]
    public async Task After_a_silence_the_first_command_is_given_again()
    {
        await using var instrument = await PtyInstrument.ShyAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $"{{ {First}, {Liquor} }}");
        await stepped.Bus.OpenAsync(Cancel);
        Assert.Equal(Quality.Good, (await stepped.AnsweredAsync(probe)).Quality);

        await instrument.TellAsync("silent on");
        Assert.Equal(Quality.Missing, (await stepped.UnansweredAsync(probe)).Quality);
        await instrument.TellAsync("forget");
        await instrument.TellAsync("silent off");
        Assert.Equal(Sample.Good(45.2), await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task An_instrument_is_told_the_liquors_temperature_and_it_stands_with_the_reading()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var clock = new FakeTimeProvider();
        var known = new KnownTemperatures(new WatchClock(clock));
        var probe = SerialBench.Text(stepped.Bus, "acidity", Quantity.Ph, """{ "ask": "RT,{temperature}\\r", "pattern": "^PH=(?<value>[0-9.]+)@50.0$", "unit": "pH" }""", known: known);
        await stepped.Bus.OpenAsync(Cancel);
        var unasked = Sample.Missing("not asked, because it must be told the liquor's temperature and there is no good one");
        Assert.Equal(unasked, await stepped.AnsweredAsync(probe));

        known.Note(SerialBench.Vat.Id, 49.98, TimeSpan.FromSeconds(5));
        Assert.Equal(new Sample(9.81, Quality.Good, "told 50.0 °C"), await stepped.AnsweredAsync(probe));

        clock.Advance(TimeSpan.FromSeconds(61));
        Assert.Equal(unasked, await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task What_was_passed_over_and_every_byte_can_be_shown()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var talk = new List<OverheardBytes>();
        stepped.Bus.Overhear = bytes =>
        {
            lock (talk)
            {
                talk.Add(bytes);
            }
        };
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $"{{ {Liquor} }}");
        await stepped.Bus.OpenAsync(Cancel);
        await instrument.TellAsync("manner status-before");
        Assert.Equal(Quality.Good, (await stepped.AnsweredAsync(probe)).Quality);
        Assert.Equal("passed over '*OK' before its answer", probe.Remark);
        lock (talk)
        {
            Assert.Equal(@"T?\r", Assert.Single(talk, bytes => bytes.Sent).ToString());
            Assert.StartsWith(@"*OK\r\nT=45.20C", string.Concat(talk.Where(bytes => !bytes.Sent)), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("""{ "ask": "RT,{temperature}\\r", "pattern": "(?<value>.*)", "unit": "°C" }""", "settings.ask is \"RT,{temperature}\\r\"; wanted no {temperature}")]
    [InlineData("""{ "first": [ { "ask": "A\\r" } ], "pattern": "(?<value>.*)", "unit": "°C" }""", "settings.first[0].answer is missing; wanted a regular expression")]
    [InlineData("""{ "first": [ { "ask": "A\\r", "answer": "(" } ], "pattern": "(?<value>.*)", "unit": "°C" }""", "settings.first[0].answer is \"(\"; wanted a regular expression")]
    [InlineData("""{ "first": [ { "ask": "A{temperature}\\r", "answer": "x" } ], "pattern": "(?<value>.*)", "unit": "°C" }""", "settings.first[0].ask is \"A{temperature}\\r\"; wanted no {temperature}")]
    public void One_sentence_says_what_is_wrong(string settings, string sentence) =>
        Assert.StartsWith(sentence, Assert.Single(SerialBench.FaultsOf(new TextLineDriver(), settings)));
}
