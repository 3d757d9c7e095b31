using VatWatch.Conditions.Heating;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.LogBook.Photos;
using VatWatch.Daemon.Web.LogBook;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Body that begins a session or says something of one. All but the name may be left out; what is left out is not said.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="YarnGrams">Dry weight of the yarn, g.</param>
/// <param name="Fibre">protein or cellulose; null: as the vat.</param>
/// <param name="Shade">Wanted shade, up to 80 characters.</param>
/// <param name="Verdict">good or poor.</param>
/// <param name="Wish">Times and number of dips as they are meant to be.</param>
internal sealed record SessionRequest(string? By, double? YarnGrams, string? Fibre, string? Shade, string? Verdict, DipWish? Wish = null);

/// <summary>Body that ends a session.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="Verdict">good or poor; null: later.</param>
internal sealed record EndRequest(string? By, string? Verdict);

/// <summary>Body that writes an entry.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="Kind">dip-in, dip-out, added, stirred, lid-off, lid-on, heater-on, heater-off, note, drawn-off, made-anew, reading, sign or goods.</param>
/// <param name="Material">With added: soda-ash, reducing-agent, stock, water, indigo, lime, lye or washing-soda.</param>
/// <param name="Amount">
/// With added: grams of what is weighed, litres of what is poured. With drawn-off and made-anew: litres. With reading: its value. With sign: seconds of drop and skein. With goods: grams, dry.
/// </param>
/// <param name="Text">What is written beside it, up to 500 characters.</param>
/// <param name="ReadyBy">With heater-on: the local time of day by which the vat should be ready, such as 09:00; null without such a wish.</param>
/// <param name="At">When it happened, at most a day ago; null: now.</param>
/// <param name="Tap">A name of up to 64 characters for this writing: the same sent again writes nothing more and gets the first answer.</param>
/// <param name="Strength">With added: grams of indigo in a litre of stock; of what is weighed the share that counts, above 0 to 1. Null where it is not known.</param>
/// <param name="Reading">With reading: ph, temperature (°C), orp (mV), indigo (g/L) or alkalinity (meq/L).</param>
/// <param name="Sign">With sign: flower, no-flower, sheen, no-sheen, yellow, green, blue, milky, ammonia, no-ammonia, pale, drop or skein.</param>
/// <param name="Goods">With goods: yarn, cloth or garment.</param>
internal sealed record EntryRequest(
    string? By, string? Kind, string? Material, double? Amount, string? Text, string? ReadyBy = null, DateTimeOffset? At = null, string? Tap = null,
    double? Strength = null, string? Reading = null, string? Sign = null, string? Goods = null);

/// <summary>Body that withdraws an entry.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
internal sealed record WithdrawRequest(string? By);

/// <summary>Two sessions that were one.</summary>
/// <param name="By">Who says so.</param>
/// <param name="Session">The other session of the vat.</param>
internal sealed record JoinRequest(string? By, string? Session);

/// <summary>One dip.</summary>
/// <param name="In">When the yarn went in, UTC.</param>
/// <param name="Out">When it came out, UTC; null while it is in.</param>
/// <param name="Minutes">How long.</param>
internal sealed record DipReply(DateTimeOffset In, DateTimeOffset? Out, double? Minutes);

/// <summary>One session as programs get it.</summary>
/// <param name="Id">Its name among the sessions of the vat.</param>
/// <param name="Started">When it began, UTC.</param>
/// <param name="StartedTrusted">Whether the clock was known to be right.</param>
/// <param name="Ended">When it ended, UTC; null while it goes on.</param>
/// <param name="By">Who began it.</param>
/// <param name="YarnGrams">Dry weight of the yarn.</param>
/// <param name="Fibre">protein or cellulose; null: as the vat.</param>
/// <param name="Shade">Wanted shade.</param>
/// <param name="Verdict">good or poor.</param>
/// <param name="Wish">Times and number of dips as they are meant to be; null without such a wish.</param>
/// <param name="Added">Sum of each material, in g of what is weighed and L of what is poured.</param>
/// <param name="Entries">All entries, withdrawn ones among them, oldest first.</param>
internal sealed record SessionReply(
    string Vat, string Id, DateTimeOffset Started, bool StartedTrusted, DateTimeOffset? Ended, string By,
    double? YarnGrams, string? Fibre, string? Shade, string? Verdict, DipWish? Wish,
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
            session.Details.Wish,
            [.. tally.Dips.Select(dip => new DipReply(dip.In.Utc, dip.Out?.Utc, dip.Length is { } length ? Math.Round(length.TotalMinutes, 2) : null))],
            tally.Added.ToDictionary(pair => pair.Key.Word(), pair => pair.Value),
            [.. sheet.Entries.Select(EntryReply.Of)]);
    }
}

/// <summary>One entry of the log book as programs get it.</summary>
/// <param name="Id">Its number; entries are in order of it.</param>
/// <param name="Session">The session; null for one between sessions.</param>
/// <param name="Time">When, UTC.</param>
/// <param name="TimeTrusted">Whether the clock was known to be right.</param>
/// <param name="Kind">dip-in, dip-out, added, stirred, lid-off, lid-on, heater-on, heater-off, note, photo, drawn-off, made-anew, reading, sign or goods.</param>
/// <param name="By">Who wrote it.</param>
/// <param name="Material">What was added.</param>
/// <param name="Amount">How much, in <paramref name="Unit"/>.</param>
/// <param name="Unit">g or L; of a reading pH, °C, mV, g/L or meq/L; s of a sign that is timed.</param>
/// <param name="Text">What is written beside it.</param>
/// <param name="Photo">Address of its picture.</param>
/// <param name="Withdrawn">When it was withdrawn, UTC; null while it stands.</param>
/// <param name="ReadyBy">With heater-on: when the vat should be ready, UTC; null without such a wish.</param>
/// <param name="Strength">Grams of indigo in a litre of stock; of what is weighed the share that counts, above 0 to 1; null where nobody said.</param>
/// <param name="Reading">What was read by hand: ph, temperature, orp, indigo or alkalinity.</param>
/// <param name="Sign">What was seen or smelt.</param>
/// <param name="Goods">yarn, cloth or garment.</param>
internal sealed record EntryReply(
    long Id, string Vat, string? Session, DateTimeOffset Time, bool TimeTrusted, string Kind, string By,
    string? Material, double? Amount, string? Unit, string? Text, string? Photo, DateTimeOffset? Withdrawn, DateTimeOffset? ReadyBy,
    double? Strength, string? Reading, string? Sign, string? Goods)
{
    internal static EntryReply Of(SessionEntry entry) => new(
        entry.Id,
        entry.Vat.Value,
        entry.Session?.Value,
        entry.At.Utc,
        entry.At.UtcTrusted,
        entry.Kind.Word(),
        entry.By,
        entry.Material?.Word(),
        entry.Amount.Finite(),
        entry.Unit(),
        entry.Text,
        entry is { Kind: EntryKind.Photo, Withdrawn: null } ? PhotoEndpoint.Href(entry) : null,
        entry.Withdrawn,
        entry.ReadyBy,
        entry.Strength.Finite(),
        entry.Reading?.Word(),
        entry.Sign?.Word(),
        entry.Goods?.Word());
}

/// <summary>What a dip will do to a vat.</summary>
/// <param name="YarnGrams">Dry weight of the yarn that was asked for.</param>
/// <param name="DropK">How much the liquor cools.</param>
/// <param name="AfterC">Where it then stands.</param>
/// <param name="Recovery">Until the heater has brought it back; null when it does not.</param>
/// <param name="FewestDips">Dips before the vat should rest, at least.</param>
/// <param name="OrpBackMinutes">Middle time that ORP took to come back after the dips so far.</param>
/// <param name="OrpDips">How many dips that rests on.</param>
/// <param name="Assumptions">What it rests on, in the dyer's units.</param>
internal sealed record DipOutlookReply(
    double YarnGrams, ValueRange DropK, ValueRange AfterC, ForecastDocument? Recovery, int FewestDips, int MostDips, double? OrpBackMinutes, int OrpDips,
    IReadOnlyList<string> Assumptions)
{
    internal static DipOutlookReply Of(double yarnGrams, DipOutlook outlook) => new(
        yarnGrams,
        Tidy(outlook.Drop),
        Tidy(outlook.After),
        ForecastDocument.Of(outlook.Recovery),
        outlook.FewestDips,
        outlook.MostDips,
        outlook.OrpBack is { } back ? Math.Round(back.TotalMinutes, 1) : null,
        outlook.OrpDips,
        outlook.Assumptions);

    private static ValueRange Tidy(ValueRange range) => new(Math.Round(range.Low, 2), Math.Round(range.High, 2));
}
