using VatWatch.Conditions;

namespace VatWatch.Sessions.Entries;

/// <summary>What entries of the log book mean to a vat's readings.</summary>
public static class EntryActs
{
    /// <summary>The act that an entry tells of; null for notes, pictures and what only tells of the vat, to which no reading answers.</summary>
    public static VatAct? Act(this SessionEntry entry) => KindOf(entry) is { } kind ? new VatAct(kind, entry.At) { ReadyBy = entry.ReadyBy } : null;

    private static VatActKind? KindOf(SessionEntry entry) => entry.Kind switch
    {
        EntryKind.DipIn or EntryKind.DipOut => VatActKind.Dip,
        EntryKind.Added => entry.Material == Material.Water ? VatActKind.TopUp : VatActKind.Addition,
        EntryKind.MadeAnew => VatActKind.MadeAnew,
        EntryKind.Stirred => VatActKind.Stir,
        EntryKind.LidOff => VatActKind.LidOff,
        EntryKind.LidOn => VatActKind.LidOn,
        EntryKind.HeaterOn => VatActKind.HeaterOn,
        EntryKind.HeaterOff => VatActKind.HeaterOff,
        _ => null,
    };
}
