using System.Globalization;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web.LogBook.Writing;

/// <summary>Turns the fields of a form into an entry or into what is said of a session; what cannot be is told in a sentence.</summary>
internal static class EntryFields
{
    /// <summary>Field of the kind of entry.</summary>
    public const string Kind = "kind";

    /// <summary>Field of what was added.</summary>
    public const string Material = "material";

    /// <summary>Field of how much.</summary>
    public const string Amount = "amount";

    /// <summary>Field of what is written.</summary>
    public const string Text = "text";

    /// <summary>Field of the local time of day by which the vat should be ready.</summary>
    public const string Ready = "ready";

    public const string Picture = "picture";

    /// <summary>Field of when it happened: minutes ago, or <see cref="AtTime"/>; empty: now.</summary>
    public const string When = "when";

    /// <summary>The value of <see cref="When"/> that stands for the time of day in <see cref="At"/>.</summary>
    public const string AtTime = "at";

    /// <summary>Field of the local time of day at which it happened.</summary>
    public const string At = "at";

    /// <summary>Field of the seconds for which a phone has kept the tap.</summary>
    public const string Kept = "kept";

    /// <summary>Field of what the phone calls the tap.</summary>
    public const string Tap = "tap";

    /// <summary>Field of the minutes in the liquor that the dyer means to keep.</summary>
    public const string DipMinutes = "dip-minutes";

    /// <summary>Field of the minutes out of it.</summary>
    public const string AiringMinutes = "airing-minutes";

    /// <summary>Field of the number of dips.</summary>
    public const string Dips = "dips";

    /// <summary>Field of the yarn's dry weight.</summary>
    public const string Yarn = "yarn";

    public const string Fibre = "fibre";

    /// <summary>Field of the wanted shade.</summary>
    public const string Shade = "shade";

    public const string Verdict = "verdict";

    /// <exception cref="UnusableFormException">It makes no entry.</exception>
    public static EntryDraft Read(IFormCollection form, VatId vat, string by, SiteFacts site, LocalClock clock)
    {
        var at = MomentOf(form, site.SimulationSpeed, clock);
        var kind = EnumWord.Find<EntryKind>(form[Kind]) ?? throw new UnusableFormException("The form does not say what happened; go back and tap one of the buttons.");
        var draft = new EntryDraft(vat, kind, by) { Text = Line(form[Text]), At = at, Tap = Line(form[Tap]) };
        return kind switch
        {
            EntryKind.Added => Added(draft, form, site.Units),
            EntryKind.HeaterOn => HeaterOn(draft, form),
            EntryKind.Sign or EntryKind.Reading or EntryKind.Goods or EntryKind.DrawnOff or EntryKind.MadeAnew => VatBookFields.Read(draft, form, site.Units),
            _ => draft,
        };
    }

    /// <summary>A local time of day such as "09:00"; false when it is none.</summary>
    public static bool TryTime(string text, out TimeOnly? time)
    {
        var isTime = TimeOnly.TryParseExact(text.Trim(), "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var read);
        time = isTime ? read : null;
        return isTime;
    }

    /// <summary>What is said of a session.</summary>
    /// <exception cref="UnusableFormException">Something that was typed cannot be read.</exception>
    public static SessionDetails Details(IFormCollection form, DisplayUnits units)
    {
        double? yarn = Line(form[Yarn]) is not { } text ? null
            : DyersQuantity.TryMass(text, units, out var grams) ? grams
            : throw new UnusableFormException($"The weight of the yarn is \"{text}\"; wanted {DyersQuantity.Wanted(Sessions.Entries.Material.SodaAsh, units)}.");
        var wish = new DipWish(Number(form, DipMinutes, "the minutes in the liquor"), Number(form, AiringMinutes, "the minutes out of it"), null);
        if (Number(form, Dips, "the number of dips") is { } dips)
        {
            wish = wish with { Dips = (int)Math.Clamp(dips, 0, DipWish.MostDips + 1) };
        }

        return new(yarn, EnumWord.Find<Fibre>(form[Fibre]), Line(form[Shade]), EnumWord.Find<Verdict>(form[Verdict]))
        {
            Wish = wish.IsEmpty ? null : wish,
        };
    }

    private static double? Number(IFormCollection form, string field, string what) => Line(form[field]) is not { } text ? null
        : Typed.TryNumber(text, out var number) ? number
        : throw new UnusableFormException($"{what.Capitalized()} are \"{text}\"; wanted a number such as \"20\", or nothing.");

    /// <summary>When it happened, UTC; null for now. What a phone kept meanwhile is that much older.</summary>
    private static DateTimeOffset? MomentOf(IFormCollection form, double speed, LocalClock clock)
    {
        var kept = double.TryParse(form[Kept], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds) && seconds is > 0 and < 1e7
            ? TimeSpan.FromSeconds(seconds * speed)
            : TimeSpan.Zero;
        var tapped = clock.Now.Utc - kept;
        if (form[When] == AtTime)
        {
            return TryTime(form[At].ToString(), out var time)
                ? clock.Last(time!.Value, tapped)
                : throw new UnusableFormException($"The time at which it happened is \"{Line(form[At])}\"; wanted a time of day such as \"14:05\".");
        }

        var ago = int.TryParse(form[When], NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) ? TimeSpan.FromMinutes(Math.Min(minutes, 10_000)) : TimeSpan.Zero;
        return ago + kept > TimeSpan.Zero ? tapped - ago : null;
    }

    /// <summary>What was typed, on one line; null for nothing.</summary>
    public static string? Line(string? typed) => FreeText.Clean(typed) is { Length: > 0 } line ? line : null;

    private static EntryDraft HeaterOn(EntryDraft draft, IFormCollection form) => Line(form[Ready]) is not { } text ? draft
        : TryTime(text, out var time) ? draft with { ReadyAt = time }
        : throw new UnusableFormException($"The time by which the vat should be ready is \"{text}\"; wanted a time of day such as \"09:00\", or nothing.");

    private static EntryDraft Added(EntryDraft draft, IFormCollection form, DisplayUnits units)
    {
        var material = EnumWord.Find<Material>(form[Material]) ?? throw new UnusableFormException("The form does not say what was added; go back to the vat and choose one.");
        var text = Line(form[Amount]) ?? "";
        return DyersQuantity.TryAmount(text, material, units, out var amount)
            ? VatBookFields.WithStrength(draft with { Material = material, Amount = amount }, material, form)
            : throw new UnusableFormException($"The amount of {material.Name()} is \"{text}\"; wanted {DyersQuantity.Wanted(material, units)}.");
    }
}

/// <summary>A form cannot be used; the message is the sentence for who sent it.</summary>
internal sealed class UnusableFormException(string sentence) : Exception(sentence);
