using System.Globalization;
using VatWatch.Probes;
using VatWatch.Testing.Instruments;

namespace VatWatch.Tests.Probes.Serial;

/// <summary>Instruments with habits of their own, each in another process and configured as its user would.</summary>
[Trait("Starts", "processes")]
public sealed class InstrumentMannersTests
{
    private const string Named = """ "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" """;
    private const string AnyNumber = """ "pattern": "(?<value>[-+0-9.]+)", "unit": "°C" """;

    /// <summary>Readings of each; VATWATCH_MANNERS=1000 is the full size.</summary>
    private static readonly int Readings = int.Parse(Environment.GetEnvironmentVariable("VATWATCH_MANNERS") ?? "60", CultureInfo.InvariantCulture);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("plain", @"\r\n", Named)]
    [InlineData("plain", @"\r", Named)]
    [InlineData("plain", @"\n\r", Named)]
    [InlineData("echo", @"\r\n", Named)]
    [InlineData("echo", @"\r\n", AnyNumber)]
    [InlineData("banner", @"\r\n", Named)]
    [InlineData("status-before", @"\r", Named)]
    [InlineData("status-after", @"\r", Named)]
    [InlineData("bursts", @"\r\n", Named, 20)]
    [InlineData("comma", @"\r\n", """ "pattern": "T=(?<value>[-+0-9,]+)C", "decimal": ",", "unit": "°C" """)]
    [InlineData("unit-behind", @"\r\n", """ "pattern": "(?<value>[-+0-9.]+) deg C", "unit": "°C" """)]
    [InlineData("twice", @"\r\n", Named)]
    [InlineData("noise-line", @"\r\n", Named)]
    public async Task Every_reading_is_the_answer_to_its_question(string manner, string ending, string settings, int slowness = 1)
    {
        await using var instrument = await PtyInstrument.AskedAsync(ending);
        await using var stepped = new SteppedBus(instrument.Port, TimeSpan.FromHours(1));
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $$"""{ "ask": "T?\\r", {{settings}} }""", 0.01);
        await stepped.Bus.OpenAsync(Cancel);
        await instrument.TellAsync($"manner {manner}");

        var wrong = 0;
        var others = new List<string>();
        for (var n = 0; n < Readings / slowness; n++)
        {
            var value = 20 + n * 0.01;
            await instrument.TellAsync(string.Create(CultureInfo.InvariantCulture, $"set T {value:0.00}"));
            var sample = await stepped.AnsweredAsync(probe);
            if (sample.Quality != Quality.Good)
            {
                others.Add($"{n}: {sample.Reason}");
            }

            wrong += sample.Value is { } got && Math.Abs(got - value) > 0.001 ? 1 : 0;
        }

        Assert.Equal(0, wrong);
        Assert.True(others.Count <= 0.001 * Readings / slowness, string.Join('\n', others));
    }

    [Fact]
    public async Task A_refusal_is_told_at_once_in_the_instruments_own_words()
    {
        await using var instrument = await PtyInstrument.AskedAsync(@"\r");
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $$"""{ "ask": "T?\\r", "refuse": "^\\*ER", {{Named}} }""");
        await stepped.Bus.OpenAsync(Cancel);
        await instrument.TellAsync("manner refuse");

        Assert.Equal(Sample.Fault("the instrument refuses: '*ER'"), await stepped.AnsweredAsync(probe));
    }

    [Fact]
    public async Task What_was_passed_over_is_shown_when_nothing_matches()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, """{ "ask": "PH?\\r", "pattern": "^T=(?<value>[0-9.]+)C$", "unit": "°C" }""");
        await stepped.Bus.OpenAsync(Cancel);

        var sample = await stepped.UnansweredAsync(probe, "PH=9.810\r\n");
        Assert.Equal(@"the answer to 'PH?\r' within 300 ms was 'PH=9.810', which does not match the pattern", sample.Reason);
    }

    [Fact]
    public async Task A_line_is_scaled_and_shifted_as_the_settings_say()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await using var stepped = new SteppedBus(instrument.Port);
        var probe = SerialBench.Text(stepped.Bus, "liquor", Quantity.Temperature, $$"""{ "ask": "T?\\r", "scale": 2, "offset": -10, {{Named}} }""");
        await stepped.Bus.OpenAsync(Cancel);

        Assert.Equal(80.4, (await stepped.AnsweredAsync(probe)).Value!.Value, 9);
    }
}
