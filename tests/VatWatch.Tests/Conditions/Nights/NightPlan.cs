using VatWatch.Probes.Simulation;
using VatWatch.Science.Heat.Model;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Nights;

/// <summary>One drawn night: the vat, its equipment, what happens to it, and how badly it is watched. The same seed is the same night.</summary>
internal sealed record NightPlan
{
    private static readonly VatInsulation[] Wraps = [VatInsulation.Bare, VatInsulation.ReflectiveWrap, VatInsulation.ReflectiveWrap, VatInsulation.Foam25Mm, VatInsulation.Foam50Mm];

    public required int Seed { get; init; }

    /// <summary>Liquor truly in the vat; the configuration is up to 5 % off.</summary>
    public required double Litres { get; init; }

    public required VatDefinition Vat { get; init; }

    public required SimulationScenario Scenario { get; init; }

    /// <summary>Scatter of the liquor probe, K, and its resolution.</summary>
    public required double Scatter { get; init; }

    public required double Resolution { get; init; }

    /// <summary>Stretches in which no probe answers.</summary>
    public required IReadOnlyList<(TimeSpan From, TimeSpan To)> DropOuts { get; init; }

    /// <summary>When the heater's contact welds; null for a heater that obeys.</summary>
    public TimeSpan? SticksAt => Scenario.ThermostatC is null ? TimeSpan.Zero : Scenario.Acts.FirstOrDefault(act => act.Kind == SimulatedActKind.HeaterSticks)?.At;

    public static NightPlan Draw(int seed)
    {
        var random = new Random(unchecked(seed * 7919));
        var litres = Between(random, 60, 250);
        var watts = Math.Clamp(litres * Between(random, 7, 14), 600, 3000);
        var roomC = Between(random, 12, 24);
        var hasLid = random.NextDouble() < 0.8;
        var every = random.NextDouble() < 0.5 ? 5 : 10;
        var sticks = random.NextDouble() < 0.35;
        var scenario = new SimulationScenario
        {
            Seed = seed,
            StartC = roomC + Between(random, 0, 14),
            AmbientC = roomC,
            HeaterWatts = watts,
            ThermostatC = sticks && random.NextDouble() < 0.6 ? null : Between(random, 41, 46),
            Lid = hasLid,
            Insulation = Wraps[random.Next(Wraps.Length)],
            MainsSwing = Between(random, 0, 0.025),
            RoomSwingK = Between(random, 0, 2),
        };
        return new NightPlan
        {
            Seed = seed,
            Litres = litres,
            Scenario = scenario with { Acts = Acts(random, hasLid, sticks && scenario.ThermostatC is not null) },
            Vat = VatOf(random, litres, watts, every),
            Scatter = Between(random, 0.02, 0.06),
            Resolution = random.NextDouble() < 0.5 ? 0.01 : 0.0625,
            DropOuts = [.. Enumerable.Range(0, random.Next(4)).Select(_ => DropOut(random))],
        };
    }

    private static VatDefinition VatOf(Random random, double litres, double watts, int every)
    {
        const string id = "madder-lane";
        var probes = new List<ProbeDefinition> { SampleVats.Probe(id, "liquor", Quantity.Temperature, every) };
        if (random.NextDouble() < 0.5)
        {
            probes.Add(SampleVats.Probe(id, "room", Quantity.Ambient, 60));
        }

        if (random.NextDouble() < 0.5)
        {
            probes.Add(SampleVats.Probe(id, "heater", Quantity.Heater, every));
        }

        return SampleVats.MadderLane() with
        {
            VolumeLitres = litres * Between(random, 0.95, 1.05),
            HeaterWatts = random.NextDouble() < 0.6 ? watts * Between(random, 0.92, 1.12) : null,
            Probes = probes,
        };
    }

    private static IReadOnlyList<SimulatedAct> Acts(Random random, bool hasLid, bool sticks)
    {
        var acts = new List<SimulatedAct>();
        for (var dips = random.Next(3); dips > 0; dips--)
        {
            acts.Add(new(TimeSpan.FromHours(Between(random, 0.5, 11)), SimulatedActKind.Dip, Between(random, 0.5, 3)));
        }

        if (hasLid && random.NextDouble() < 0.3)
        {
            var off = TimeSpan.FromHours(Between(random, 1, 10));
            acts.Add(new(off, SimulatedActKind.LidOff));
            acts.Add(new(off + TimeSpan.FromMinutes(Between(random, 10, 120)), SimulatedActKind.LidOn));
        }

        if (sticks)
        {
            acts.Add(new(TimeSpan.FromHours(Between(random, 1, 9)), SimulatedActKind.HeaterSticks));
        }

        return [.. acts.OrderBy(act => act.At)];
    }

    private static (TimeSpan, TimeSpan) DropOut(Random random)
    {
        var from = TimeSpan.FromHours(Between(random, 0.1, 11.5));
        return (from, from + TimeSpan.FromMinutes(Between(random, 0.5, 25)));
    }

    private static double Between(Random random, double low, double high) => low + (high - low) * random.NextDouble();
}
