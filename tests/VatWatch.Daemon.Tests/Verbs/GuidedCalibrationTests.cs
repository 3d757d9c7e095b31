using System.Runtime.CompilerServices;
using VatWatch.Daemon.Bench;
using VatWatch.Daemon.Verbs.Calibrate;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Testing.Instruments;

namespace VatWatch.Daemon.Tests.Verbs;

[Trait("Starts", "processes")]
public sealed class GuidedCalibrationTests : IDisposable
{
    private readonly Bench _bench = new();

    [Fact]
    public async Task A_person_is_led_through_the_buffers_and_each_is_taken_when_it_rests()
    {
        var (taken, said) = await GuideAsync("technical", "25 °C\nabout 25\n\nend\n", 5.0, -170.0);
        Assert.Equal(["technical 7.00", "technical 10.01"], taken.Select(one => one.Buffer));
        Assert.Equal(5.0, taken[0].Point.ElectrodeMillivolts, 0.2);
        Assert.Equal(-170.0, taken[1].Point.ElectrodeMillivolts, 0.2);
        Assert.All(taken, one => Assert.InRange(one.Settling!.Value.TotalSeconds, 5, 90));
        Assert.Contains("'about 25' is no temperature", said, StringComparison.Ordinal);
        Assert.Contains("moving", said, StringComparison.Ordinal);
        Assert.Contains("steady; it took", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_not_recognised_is_asked_for()
    {
        var (taken, said) = await GuideAsync("technical", "25 °C\n9\n10.01\nend\n", -100.0);
        Assert.Equal("technical 10.01", Assert.Single(taken).Buffer);
        Assert.Contains("'9' is no buffer; wanted one of 4.00, 7.00, 10.01.", said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_bottles_value_is_asked_for()
    {
        var (taken, _) = await GuideAsync("bottle", "77 °F\n9.21\nend\n", -120.0);
        Assert.Equal(("bottle 9.21", 9.21), (taken[0].Buffer, taken[0].Point.BufferPh));
        Assert.Equal(25, taken[0].Point.TemperatureC, 6);
    }

    [Fact]
    public async Task Whoever_leaves_in_the_middle_has_stored_nothing()
    {
        var left = await Assert.ThrowsAsync<GuideEndedException>(() => GuideAsync("technical", "25 °C\n", 5.0));
        Assert.Contains("was not finished; nothing was stored", left.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_probe_that_never_rests_ends_it()
    {
        var left = await Assert.ThrowsAsync<GuideEndedException>(() => GuideAsync("technical", "25 °C\n", double.NaN));
        Assert.Contains("has not come to rest within 10 min", left.Message, StringComparison.Ordinal);
    }

    /// <summary>The whole verb against an instrument in another process on a pseudo-terminal; takes the real half minute.</summary>
    [Fact]
    public async Task On_a_real_port_the_live_value_is_shown_and_stored()
    {
        await using var instrument = await PtyInstrument.AskedAsync();
        await instrument.TellAsync("set ORP 214");
        using var bench = new Bench(instrument.Port);
        var (code, output, error) = await bench.RunAsync(["calibrate", "orp", "--probe", "platinum", "--solution", "zobell"], new StringReader("25 °C\n"));
        Assert.Equal((0, ""), (code, error));
        Assert.Contains("214.0 mV, moving 0.0 mV", output, StringComparison.Ordinal);
        Assert.Contains("expected 221.0 mV, shown 214.0 mV", output, StringComparison.Ordinal);
        Assert.Contains("Stored as calibration 1", output, StringComparison.Ordinal);
    }

    public void Dispose() => _bench.Dispose();

    private async Task<(IReadOnlyList<VatWatch.Calibration.PhCalibrationPoint> Taken, string Said)> GuideAsync(string set, string lines, params double[] rests)
    {
        using var output = new StringWriter();
        var console = new VerbConsole(output, TextWriter.Null, new StringReader(lines));
        var job = CalibrationJob.Find(new CommonAnswers(new(console.Load(_bench.Config), _bench.Data), "glass", false, false), Quantity.Ph);
        var choice = BufferChoice.All.Single(one => one.Word == set);
        var taken = await new PhGuide(job, new CreepingElectrode(rests), choice, null, console).TakeAsync(TestContext.Current.CancellationToken);
        return (taken, output.ToString());
    }

    /// <summary>Each second a value that creeps to its rest with a time constant of 5 s; a rest that is no number is never reached.</summary>
    private sealed class CreepingElectrode(params double[] rests) : ILiveElectrode
    {
        private int _buffer;

        public async IAsyncEnumerable<Reading> FollowAsync(double solutionC, [EnumeratorCancellation] CancellationToken cancel)
        {
            await Task.CompletedTask;
            var rest = rests[_buffer++];
            for (var second = 0; ; second++)
            {
                cancel.ThrowIfCancellationRequested();
                var value = double.IsNaN(rest) ? second : rest + 60 * Math.Exp(-second / 5.0);
                yield return new Reading(new("weld-60"), new("glass"), Quantity.Ph, Sample.Good(value), new Stamp(DateTimeOffset.UnixEpoch.AddSeconds(second), TimeSpan.FromSeconds(second), true), TimeSpan.Zero);
            }
        }

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
