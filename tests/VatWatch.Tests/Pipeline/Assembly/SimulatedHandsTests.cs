using Microsoft.Extensions.Time.Testing;
using VatWatch.Pipeline.Assembly;
using VatWatch.Probes;
using VatWatch.Probes.Simulation;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline.Assembly;

public sealed class SimulatedHandsTests
{
    private readonly FakeTimeProvider _time = new();
    private readonly VatDefinition _vat = SampleVats.MadderLane();

    [Fact]
    public async Task A_dip_in_the_log_book_is_felt_by_the_simulated_vat_of_that_name_alone()
    {
        var dipped = Bench(_vat);
        var other = Bench(_vat with { Id = new VatId("elsewhere"), Probes = [.. _vat.Probes.Select(probe => probe with { Vat = new VatId("elsewhere") })] });
        _time.Advance(TimeSpan.FromHours(8));
        var before = (await OrpAsync(dipped), await OrpAsync(other));
        SimulatedHands.Do([dipped, other], new SessionEntry { Id = 1, Vat = _vat.Id, Kind = EntryKind.DipIn, By = "Ada", At = new WatchClock(_time).Now() }, null);
        await OrpAsync(dipped);
        _time.Advance(TimeSpan.FromMinutes(5));
        Assert.InRange(await OrpAsync(dipped) - before.Item1, 15, 150);
        Assert.InRange(await OrpAsync(other) - before.Item2, -8, 8);
    }

    private BusWithProbes Bench(VatDefinition vat)
    {
        var bus = new SimulatedVatBus(new BusId("demo"), new SimulationScenario { StartC = 44, ThermostatC = 45 }, new WatchClock(_time));
        IProbe[] probes = [.. vat.Probes.Select(probe => new SimulatedProbe(bus, probe))];
        foreach (var probe in vat.Probes)
        {
            bus.Hang(probe, vat);
        }

        return new BusWithProbes(bus, probes);
    }

    private static async Task<double> OrpAsync(BusWithProbes bench) =>
        (await bench.Probes.Single(probe => probe.Definition.Quantity == Quantity.Orp).TakeSampleAsync(CancellationToken.None)).Value!.Value;
}
