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

    /// <summary>Whether an entry may be written.</summary>
    /// <param name="draft">The entry.</param>
    /// <param name="tally">What the open session holds so far; null without one.</param>
    public static string? WhyNot(EntryDraft draft, SessionTally? tally) =>
        Person(draft.By) ?? Text(draft.Text, EntryDraft.LongestText, "the text") ?? Text(draft.Tap, EntryDraft.LongestTap, "the name of the tap") ?? draft.Kind switch
        {
            EntryKind.DipIn when tally?.InSince is not null => "The yarn is in the vat already, as far as the log book knows; tap Dip out when it comes out.",
            EntryKind.DipOut when tally?.InSince is null => "No yarn is in the vat, as far as the log book knows; tap Dip in when it goes in.",
            EntryKind.Added => Addition(draft),
            not EntryKind.HeaterOn when draft.ReadyAt is not null => "Only a heater that is switched on has a time by which the vat should be ready.",
            EntryKind.Note when string.IsNullOrWhiteSpace(draft.Text) => "The note is empty; write something down.",
            EntryKind.Photo when draft.Photo is null => "No picture came with the entry; choose one.",
            _ => null,
        };

    /// <summary>Whether an entry can have happened at a moment: neither in the future, nor long ago, nor a dip before the one before it.</summary>
    /// <param name="kind">What it tells.</param>
    /// <param name="at">When it happened.</param>
    /// <param name="now">Now.</param>
    /// <param name="tally">What the open session holds so far; null without one.</param>
    public static string? WhyNotAt(EntryKind kind, DateTimeOffset at, DateTimeOffset now, SessionTally? tally) =>
        at > now ? "That is still to come; wanted a time that has passed."
        : now - at > LongestAgo ? $"That is {DisplayUnits.Duration(now - at)} ago; wanted at most {DisplayUnits.Duration(LongestAgo)}."
        : kind is EntryKind.DipIn or EntryKind.DipOut && tally?.Dips is [.., var last] && at < (last.Out ?? last.In).Utc
            ? kind == EntryKind.DipIn ? "The yarn came out later than that, as far as the log book knows." : "The yarn went in later than that, as far as the log book knows."
            : null;

    /// <summary>Whether what the dyer says of a session can be.</summary>
    public static string? WhyNot(SessionDetails details) =>
        Plan(details.Plan) ?? (details.YarnGrams is { } grams && !(grams is > 0 and <= SessionDetails.MostYarnGrams)
            ? $"The weight of the yarn is {grams:0.###} g; wanted more than 0 and at most {SessionDetails.MostYarnGrams / 1000:0} kg."
            : Text(details.Shade, SessionDetails.LongestShade, "the shade"));

    /// <summary>Whether somebody gave a name.</summary>
    public static string? Person(string by) => by.Trim().Length is > 0 and <= EntryDraft.LongestBy
        ? null
        : $"The name has {by.Trim().Length} characters; wanted 1 to {EntryDraft.LongestBy}.";

    private static string? Plan(DipPlan? plan) =>
        plan is null ? null
        : plan.DipMinutes is { } dip && !(dip is > 0 and <= DipPlan.MostMinutes) ? Minutes("in the liquor", dip)
        : plan.AiringMinutes is { } airing && !(airing is > 0 and <= DipPlan.MostMinutes) ? Minutes("out of it", airing)
        : plan.Dips is { } dips && dips is not (> 0 and <= DipPlan.MostDips) ? $"The number of dips is {dips}; wanted 1 to {DipPlan.MostDips}."
        : null;

    private static string Minutes(string where, double minutes) => $"The time {where} is {minutes:0.###} min; wanted more than 0 and at most {DipPlan.MostMinutes:0} min.";

    private static string? Addition(EntryDraft draft)
    {
        if (draft is not { Material: { } material, Amount: { } amount })
        {
            return "An addition needs what was added and how much.";
        }

        var most = material.Unit() == "g" ? MostGrams : MostLitres;
        return amount > 0 && amount <= most
            ? null
            : $"The amount of {material.Name()} is {amount:0.###} {material.Unit()}; wanted more than 0 and at most {most:0} {material.Unit()}.";
    }

    private static string? Text(string? text, int most, string what) => text is null || text.Length <= most
        ? null
        : $"{char.ToUpperInvariant(what[0])}{what[1..]} has {text.Length} characters; wanted at most {most}.";
}
