using VatWatch.Probes.Simulation;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Testing.Nights;

/// <summary>A night in the Madder Lane vat and the session after it, as they are told; <see cref="DemoNightRun"/> lets them happen.</summary>
/// <param name="Name">Name of its file.</param>
/// <param name="Evening">When the heater is switched on, UTC.</param>
/// <param name="Length">Until the end of what is recorded.</param>
/// <param name="Scenario">How the vat begins and what is done to it; dips are of <paramref name="Details"/>' yarn.</param>
/// <param name="SessionAt">When the session begins, after the evening.</param>
/// <param name="SessionEnd">When it ends.</param>
/// <param name="Details">What the dyer says of the session.</param>
/// <param name="Told">What the dyer writes into the log book, and when.</param>
/// <param name="Acknowledged">When the dyer acknowledges what stands; null for never.</param>
public sealed record DemoNight(
    string Name,
    DateTimeOffset Evening,
    TimeSpan Length,
    SimulationScenario Scenario,
    TimeSpan SessionAt,
    TimeSpan SessionEnd,
    SessionDetails Details,
    IReadOnlyList<(TimeSpan At, EntryDraft Draft)> Told,
    TimeSpan? Acknowledged)
{
    /// <summary>Who writes into the log book.</summary>
    public const string Dyer = "the dyer";

    // Hands and yarn that move in the liquor stir air into it, L/h; common practice, no source.
    private const double AirOfHandling = 20;

    private static readonly TimeSpan DipLength = TimeSpan.FromMinutes(12);

    /// <summary>The three nights: a good one, a heater whose contact welds, a vat whose pump sucks air.</summary>
    public static IReadOnlyList<DemoNight> All { get; } = [Good(), RunawayHeater(), Oxidised()];

    private static DemoNight Good() => Make(
        "good",
        new DateTimeOffset(2026, 3, 2, 22, 0, 0, TimeSpan.Zero),
        new SimulationScenario { Seed = 11, StartC = 21, AmbientC = 17, ThermostatC = 44.5, SodaAshGramsPerLitre = 3, ReducerGramsPerLitre = 0.55, MainsSwing = 0.02, RoomSwingK = 1.5 },
        new SessionDetails(4800, Fibre.Protein, "sky over the hill", Verdict.Good),
        [(Hours(0), Add(Material.SodaAsh, 450)), (Hours(0.05), Add(Material.ReducingAgent, 83)), (Hours(13.7), Add(Material.ReducingAgent, 25)), (Hours(15.3), Note("even, no streaks"))],
        [12, 12.6, 13.2, 14.2],
        [],
        null);

    private static DemoNight RunawayHeater() => Make(
        "runaway-heater",
        new DateTimeOffset(2026, 3, 9, 22, 0, 0, TimeSpan.Zero),
        new SimulationScenario { Seed = 12, StartC = 20, AmbientC = 16, ThermostatC = 44.5, SodaAshGramsPerLitre = 3, ReducerGramsPerLitre = 0.55, MainsSwing = 0.03, RoomSwingK = 1.5 },
        new SessionDetails(3600, Fibre.Protein, "sky over the hill", Verdict.Poor),
        [(Hours(0), Add(Material.SodaAsh, 450)), (Hours(0.05), Add(Material.ReducingAgent, 83)), (Hours(9.3), Note("pulled the plug: the thermostat's contact had welded"))],
        [13, 13.6, 14.2],
        [new(Hours(7.9), SimulatedActKind.HeaterSticks), new(Hours(9.25), SimulatedActKind.HeaterFails)],
        Hours(9.2));

    private static DemoNight Oxidised() => Make(
        "oxidised",
        new DateTimeOffset(2026, 3, 16, 22, 0, 0, TimeSpan.Zero),
        new SimulationScenario { Seed = 13, StartC = 24, AmbientC = 17, ThermostatC = 44.5, SodaAshGramsPerLitre = 3, ReducerGramsPerLitre = 0.5, RoomSwingK = 1.5 },
        new SessionDetails(1800, Fibre.Protein, "midnight", Verdict.Poor),
        [(Hours(0), Add(Material.SodaAsh, 450)), (Hours(0.05), Add(Material.ReducingAgent, 75)), (Hours(11.2), Note("the pump had sucked air; stopped it")), (Hours(11.3), Add(Material.ReducingAgent, 80))],
        [13.6, 14.3],
        [new(Hours(4.5), SimulatedActKind.AirGetsIn, 16), new(Hours(11.1), SimulatedActKind.AirGetsIn)],
        Hours(11.1));

    // Yarn goes in by equal parts at these hours; what was added after the start acts on the vat too.
    private static DemoNight Make(
        string name, DateTimeOffset evening, SimulationScenario scenario, SessionDetails details, (TimeSpan At, EntryDraft Draft)[] told, double[] dips,
        SimulatedAct[] mishaps, TimeSpan? acknowledged)
    {
        var each = details.YarnGrams!.Value / dips.Length;
        SimulatedAct[] acts =
        [
            .. mishaps,
            .. dips.Select(hours => new SimulatedAct(Hours(hours), SimulatedActKind.Dip, each / 1000)),
            .. dips.Select(hours => new SimulatedAct(Hours(hours), SimulatedActKind.AirGetsIn, AirOfHandling)),
            .. dips.Select(hours => new SimulatedAct(Hours(hours) + DipLength, SimulatedActKind.AirGetsIn)),
            .. told.Where(one => one.At > Hours(1) && one.Draft.Material == Material.ReducingAgent).Select(one => new SimulatedAct(one.At, SimulatedActKind.Sharpen, one.Draft.Amount!.Value)),
        ];
        (TimeSpan, EntryDraft)[] entries =
        [
            .. told,
            .. dips.Select(hours => (Hours(hours), Tell(EntryKind.DipIn))),
            .. dips.Select(hours => (Hours(hours) + DipLength, Tell(EntryKind.DipOut))),
        ];
        return new DemoNight(
            name, evening, Hours(16), scenario with { Acts = [.. acts.OrderBy(act => act.At)] }, Hours(dips[0] - 0.6), Hours(15.4), details,
            [.. entries.OrderBy(entry => entry.Item1)], acknowledged);
    }

    private static EntryDraft Tell(EntryKind kind) => new(new VatId("madder-lane"), kind, Dyer);

    private static EntryDraft Add(Material material, double amount) => Tell(EntryKind.Added) with { Material = material, Amount = amount };

    private static EntryDraft Note(string text) => Tell(EntryKind.Note) with { Text = text };

    private static TimeSpan Hours(double hours) => TimeSpan.FromMinutes(Math.Round(hours * 60));
}
