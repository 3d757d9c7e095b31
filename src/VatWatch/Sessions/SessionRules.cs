using VatWatch.Sessions.Entries;

namespace VatWatch.Sessions;

/// <summary>Which entries and changes make sense. Each rule answers null, or why not as a sentence for the person who asked.</summary>
public static class SessionRules
{
    /// <summary>A session nobody has written to for this long is over: yarn does not stay overnight.</summary>
    public static TimeSpan Forgotten { get; } = TimeSpan.FromHours(16);

    /// <summary>An entry is written down this long after it happened, at most.</summary>
    public static TimeSpan LongestAgo { get; } = TimeSpan.FromHours(24);

    /// <summary>More than any vat here takes at a time; it catches a unit taken for another.</summary>
    private const double MostGrams = 20_000;
    private const double MostLitres = 2_000;
    private const double MostGramsPerLitre = 300;
    private const double MostSeconds = 3600;
    private const double MostPasteGramsPerLitre = 500;

    /// <summary>Liquor of more than this many times what a vat is configured with is a slip: a unit or a digit too many.</summary>
    public const double MostFill = 1.5;

    /// <summary>Whether an entry may be written.</summary>
    /// <param name="tally">What the open session holds so far; null without one.</param>
    /// <param name="units">The units of the sentence; null for litres and grams.</param>
    public static string? WhyNot(EntryDraft draft, SessionTally? tally, DisplayUnits? units = null) =>
        Person(draft.By) ?? Text(draft.Text, EntryDraft.LongestText, "the text") ?? Text(draft.Tap, EntryDraft.LongestTap, "the name of the tap") ?? draft.Kind switch
        {
            EntryKind.DipIn when tally?.InSince is not null => "The yarn is in the vat already, as far as the log book knows; tap Dip out when it comes out.",
            EntryKind.DipOut when tally?.InSince is null => "No yarn is in the vat, as far as the log book knows; tap Dip in when it goes in.",
            EntryKind.Added => Addition(draft, units ?? new(false)),
            EntryKind.DrawnOff => Amount(draft, "liquor drawn off", "L", MostLitres, units),
            EntryKind.MadeAnew => Amount(draft, "new liquor", "L", MostLitres, units),
            EntryKind.Goods => draft.Goods is null ? "Goods need their kind: yarn, cloth or garment." : Amount(draft, "goods", "g", MostGrams, units),
            EntryKind.Reading => Reading(draft),
            EntryKind.Sign => Sign(draft),
            not EntryKind.HeaterOn when draft.ReadyAt is not null => "Only a heater that is switched on has a time by which the vat should be ready.",
            EntryKind.Note when string.IsNullOrWhiteSpace(draft.Text) => "The note is empty; write something down.",
            EntryKind.Photo when draft.Photo is null => "No picture came with the entry; choose one.",
            _ => null,
        };

    /// <summary>
    /// Whether a vat can take what an entry tells of: liquor of at most <see cref="MostFill"/> times what it is configured with, and of what is weighed no more than a thick paste of it.
    /// </summary>
    /// <param name="vatLitres">Liquor that the vat is configured with, L.</param>
    /// <param name="draft">The entry, which may be written as far as <see cref="WhyNot(EntryDraft, SessionTally?, DisplayUnits?)"/> knows.</param>
    /// <param name="units">The units of the sentence; null for litres and grams.</param>
    public static string? WhyNotInto(double vatLitres, EntryDraft draft, DisplayUnits? units = null)
    {
        var (what, unit) = draft switch
        {
            { Kind: EntryKind.Added, Material: { } material } => (material.Name(), material.Unit()),
            { Kind: EntryKind.DrawnOff } => ("liquor drawn off", "L"),
            { Kind: EntryKind.MadeAnew } => ("new liquor", "L"),
            _ => ("", ""),
        };
        var most = unit switch { "L" => MostFill * vatLitres, "g" => MostPasteGramsPerLitre * vatLitres, _ => double.PositiveInfinity };
        return draft.Amount is { } amount && amount > most
            ? $"The amount of {what} is {In(amount, unit, units)}; wanted at most {In(Math.Round(most), unit, units)}, since the vat is configured with {In(Math.Round(vatLitres, 1), "L", units)}."
            : null;
    }

    /// <summary>Whether an entry can have happened at a moment: neither in the future, nor long ago, nor a dip before the one before it.</summary>
    /// <param name="at">When it happened.</param>
    /// <param name="tally">What the open session holds so far; null without one.</param>
    public static string? WhyNotAt(EntryKind kind, DateTimeOffset at, DateTimeOffset now, SessionTally? tally) =>
        at > now ? "That is still to come; wanted a time that has passed."
        : now - at > LongestAgo ? $"That is {DisplayUnits.Duration(now - at)} ago; wanted at most {DisplayUnits.Duration(LongestAgo)}."
        : kind is EntryKind.DipIn or EntryKind.DipOut && tally?.Dips is [.., var last] && at < (last.Out ?? last.In).Utc
            ? kind == EntryKind.DipIn ? "The yarn came out later than that, as far as the log book knows." : "The yarn went in later than that, as far as the log book knows."
            : null;

    /// <summary>Whether what the dyer says of a session can be.</summary>
    public static string? WhyNot(SessionDetails details) =>
        Wish(details.Wish) ?? (details.YarnGrams is { } grams && !(grams is > 0 and <= SessionDetails.MostYarnGrams)
            ? $"The weight of the yarn is {grams:0.###} g; wanted more than 0 and at most {SessionDetails.MostYarnGrams / 1000:0} kg."
            : Text(details.Shade, SessionDetails.LongestShade, "the shade"));

    /// <summary>Whether somebody gave a name.</summary>
    public static string? Person(string by) => by.Trim().Length is > 0 and <= EntryDraft.LongestBy
        ? null
        : $"The name has {by.Trim().Length} characters; wanted 1 to {EntryDraft.LongestBy}.";

    private static string? Wish(DipWish? wish) =>
        wish is null ? null
        : wish.DipMinutes is { } dip && !(dip is > 0 and <= DipWish.MostMinutes) ? Minutes("in the liquor", dip)
        : wish.AiringMinutes is { } airing && !(airing is > 0 and <= DipWish.MostMinutes) ? Minutes("out of it", airing)
        : wish.Dips is { } dips && dips is not (> 0 and <= DipWish.MostDips) ? $"The number of dips is {dips}; wanted 1 to {DipWish.MostDips}."
        : null;

    private static string Minutes(string where, double minutes) => $"The time {where} is {minutes:0.###} min; wanted more than 0 and at most {DipWish.MostMinutes:0} min.";

    private static string? Addition(EntryDraft draft, DisplayUnits units)
    {
        if (draft is not { Material: { } material, Amount: { } amount })
        {
            return "An addition needs what was added and how much.";
        }

        return Amount(draft, material.Name(), material.Unit(), material.Unit() == "g" ? MostGrams : MostLitres, units) ?? Strength(material, draft.Strength);
    }

    private static string? Amount(EntryDraft draft, string what, string unit, double most, DisplayUnits? units = null) => draft.Amount is not { } amount
        ? $"How much {what} it was is missing; wanted more than 0 and at most {In(most, unit, units)}."
        : amount > 0 && amount <= most ? null : $"The amount of {what} is {In(amount, unit, units)}; wanted more than 0 and at most {In(most, unit, units)}.";

    /// <summary>As who reads counts.</summary>
    private static string In(double amount, string unit, DisplayUnits? units) => units is { IsUs: true } us
        ? unit switch { "L" => us.Volume(amount), "g" => us.Mass(amount), _ => $"{amount:0.###} {unit}" }
        : $"{amount:0.###} {unit}";

    private static string? Strength(Material material, double? strength) => strength switch
    {
        null => null,
        _ when material == Material.Water => "Water has no strength.",
        { } litre when material == Material.Stock => litre is > 0 and <= MostGramsPerLitre ? null : $"The strength of the stock is {litre:0.###} g/L; wanted more than 0 and at most {MostGramsPerLitre:0} g/L.",
        { } share => share is > 0 and <= 1 ? null : $"The strength of {material.Name()} is {100 * share:0.###} %; wanted more than 0 and at most 100 %.",
    };

    private static string? Reading(EntryDraft draft)
    {
        if (draft is not { Reading: { } reading, Amount: { } value })
        {
            return "A reading needs what was read and its value.";
        }

        var (least, most, unit) = reading switch
        {
            HandReading.Ph => (0.0, 14.0, ""),
            HandReading.Temperature => (0.0, 110.0, " °C"),
            HandReading.Orp => (-1200.0, 800.0, " mV"),
            HandReading.Indigo => (0.0, MostGramsPerLitre, " g/L"),
            _ => (0.0, 2000.0, " meq/L"),
        };
        return value >= least && value <= most ? null : $"The {reading.Name()} that was read is {value:0.###}{unit}; wanted {least:0} to {most:0}{unit}.";
    }

    private static string? Sign(EntryDraft draft) => draft switch
    {
        { Sign: null } => "The sign is missing; say what was seen.",
        { Sign: Entries.Sign.Drop or Entries.Sign.Skein } => Amount(draft, "time until it turned blue", "s", MostSeconds),
        _ => null,
    };

    private static string? Text(string? text, int most, string what) => text is null || text.Length <= most
        ? null
        : $"{what.Capitalized()} has {text.Length} characters; wanted at most {most}.";
}
