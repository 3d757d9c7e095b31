using VatWatch.Probes.Simulation;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Pipeline.Assembly;

/// <summary>Does to a simulated vat what the log book says was done, so that a demonstration answers the dyer as a vat would.</summary>
internal static class SimulatedHands
{
    /// <summary>A dip of yarn that nobody weighed, kg.</summary>
    private const double UnweighedKg = 1;

    /// <summary>A dip of more is one of several: a vat of this size takes no more at once, kg.</summary>
    private const double MostKg = 1.5;

    /// <summary>Hands an entry on to the simulated vats among <paramref name="buses"/> whose vat it is about; real ones are left alone.</summary>
    public static void Do(IReadOnlyList<BusWithProbes> buses, SessionEntry entry, Session? session)
    {
        if (ActOf(entry, session) is not { } act)
        {
            return;
        }

        foreach (var bus in buses.Where(bus => bus.Probes.Any(probe => probe.Definition.Vat == entry.Vat)))
        {
            (bus.Bus as SimulatedVatBus)?.Do(act);
        }
    }

    private static SimulatedAct? ActOf(SessionEntry entry, Session? session) => entry switch
    {
        { Kind: EntryKind.DipIn } => new(TimeSpan.Zero, SimulatedActKind.Dip, Math.Min(MostKg, session?.Details.YarnGrams / 1000 ?? UnweighedKg)),
        { Kind: EntryKind.LidOff } => new(TimeSpan.Zero, SimulatedActKind.LidOff),
        { Kind: EntryKind.LidOn } => new(TimeSpan.Zero, SimulatedActKind.LidOn),
        { Kind: EntryKind.Added, Material: Material.ReducingAgent, Amount: { } grams } => new(TimeSpan.Zero, SimulatedActKind.Sharpen, grams),
        _ => null,
    };
}
