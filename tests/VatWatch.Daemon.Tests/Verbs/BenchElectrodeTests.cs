using VatWatch.Daemon.Verbs.Calibrate;
using VatWatch.Probes;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Verbs;

public sealed class BenchElectrodeTests
{
    [Fact]
    public async Task An_instrument_that_must_be_told_the_temperature_is_told_that_of_the_solution()
    {
        var clock = new WatchClock(TimeProvider.System);
        var known = new KnownTemperatures(clock);
        var definition = SampleVats.Probe("madder-lane", "glass", Quantity.Ph);
        await using var electrode = new BenchElectrode([new(new QuietBus(), [new ToldProbe(definition, known)])], known, definition, clock);
        foreach (var solutionC in new[] { 25.0, 40.0 })
        {
            await foreach (var reading in electrode.FollowAsync(solutionC, TestContext.Current.CancellationToken))
            {
                Assert.Equal(Sample.Good(solutionC), reading.Sample);
                break;
            }
        }
    }

    private sealed class ToldProbe(ProbeDefinition definition, KnownTemperatures known) : IProbe
    {
        public ProbeDefinition Definition => definition;

        public bool Listens => false;

        public ValueTask<Sample> TakeSampleAsync(CancellationToken cancel) => new(Sample.Good(known.Of(definition.Vat) ?? double.NaN));
    }

    private sealed class QuietBus : IProbeBus
    {
        public BusId Id => new("bench");

        public string Device => "bench";

        public ValueTask OpenAsync(CancellationToken cancel) => ValueTask.CompletedTask;

        public ValueTask CloseAsync() => ValueTask.CompletedTask;

        public ValueTask DisposeAsync() => ValueTask.CompletedTask;
    }
}
