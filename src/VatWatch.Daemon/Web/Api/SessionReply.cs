using VatWatch.Daemon.Web.LogBook;

namespace VatWatch.Daemon.Web.Api;

/// <summary>One dip.</summary>
/// <param name="In">When the yarn went in, UTC.</param>
/// <param name="Out">When it came out, UTC; null while it is in.</param>
/// <param name="Minutes">How long.</param>
internal sealed record DipReply(DateTimeOffset In, DateTimeOffset? Out, double? Minutes);

/// <summary>One session as programs get it.</summary>
/// <param name="Vat">The vat.</param>
/// <param name="Id">Its name among the sessions of the vat.</param>
/// <param name="Started">When it began, UTC.</param>
/// <param name="StartedTrusted">Whether the clock was known to be right.</param>
/// <param name="Ended">When it ended, UTC; null while it goes on.</param>
/// <param name="By">Who began it.</param>
/// <param name="YarnGrams">Dry weight of the yarn.</param>
/// <param name="Fibre">protein or cellulose; null: as the vat.</param>
/// <param name="Shade">Wanted shade.</param>
/// <param name="Verdict">good or poor.</param>
/// <param name="Dips">Its dips.</param>
/// <param name="Added">Sum of each material, in g of what is weighed and L of what is poured.</param>
/// <param name="Entries">All entries, withdrawn ones among them, oldest first.</param>
internal sealed record SessionReply(
    string Vat, string Id, DateTimeOffset Started, bool StartedTrusted, DateTimeOffset? Ended, string By,
    double? YarnGrams, string? Fibre, string? Shade, string? Verdict,
    IReadOnlyList<DipReply> Dips, IReadOnlyDictionary<string, double> Added, IReadOnlyList<EntryReply> Entries)
{
    internal static SessionReply Of(SessionSheet sheet)
    {
        var (session, tally) = (sheet.Session, sheet.Tally);
        return new(
            session.Vat.Value,
            session.Id.Value,
            session.Started.Utc,
            session.Started.UtcTrusted,
            session.Ended,
            session.By,
            session.Details.YarnGrams,
            session.Details.Fibre is { } fibre ? fibre.Word() : null,
            session.Details.Shade,
            session.Details.Verdict?.Word(),
            [.. tally.Dips.Select(dip => new DipReply(dip.In.Utc, dip.Out?.Utc, dip.Length is { } length ? Math.Round(length.TotalMinutes, 2) : null))],
            tally.Added.ToDictionary(pair => pair.Key.Word(), pair => pair.Value),
            [.. sheet.Entries.Select(EntryReply.Of)]);
    }
}
