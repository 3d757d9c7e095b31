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

    /// <summary>The entry; null with the reason.</summary>
    public static EntryDraft? Read(IFormCollection form, VatId vat, string by, SiteFacts site, LocalClock clock, out string whyNot)
    {
        if (!TryWhen(form, site.SimulationSpeed, clock, out var at, out whyNot))
        {
            return null;
        }

        if (EnumWord.Find<EntryKind>(form[Kind]) is not { } kind)
        {
            whyNot = "The form does not say what happened; go back and tap one of the buttons.";
            return null;
        }

        var draft = new EntryDraft(vat, kind, by) { Text = Line(form[Text]), At = at, Tap = Line(form[Tap]) };
        return kind switch
        {
            EntryKind.Added => Added(draft, form, site.Units, out whyNot),
            EntryKind.HeaterOn => HeaterOn(draft, form, out whyNot),
            EntryKind.Sign or EntryKind.Reading or EntryKind.Goods or EntryKind.DrawnOff or EntryKind.MadeAnew => VatBookFields.Read(draft, form, site.Units, out whyNot),
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

    /// <summary>What is said of a session; null with the reason.</summary>
    public static SessionDetails? Details(IFormCollection form, DisplayUnits units, out string whyNot)
    {
        whyNot = "";
        double? yarn = null;
        if (Line(form[Yarn]) is { } text)
        {
            if (!DyersQuantity.TryMass(text, units, out var grams))
            {
                whyNot = $"The weight of the yarn is \"{text}\"; wanted {DyersQuantity.Wanted(Sessions.Entries.Material.SodaAsh, units)}.";
                return null;
            }

            yarn = grams;
        }

        var wish = new DipWish(Number(form, DipMinutes, "the minutes in the liquor", ref whyNot), Number(form, AiringMinutes, "the minutes out of it", ref whyNot), null);
        if (Number(form, Dips, "the number of dips", ref whyNot) is { } dips)
        {
            wish = wish with { Dips = (int)Math.Clamp(dips, 0, DipWish.MostDips + 1) };
        }

        return whyNot.Length > 0 ? null : new(yarn, EnumWord.Find<Fibre>(form[Fibre]), Line(form[Shade]), EnumWord.Find<Verdict>(form[Verdict]))
        {
            Wish = wish.IsEmpty ? null : wish,
        };
    }

    private static double? Number(IFormCollection form, string field, string what, ref string whyNot)
    {
        if (Line(form[field]) is not { } text)
        {
            return null;
        }

        if (Typed.TryNumber(text, out var number))
        {
            return number;
        }

        whyNot = $"{char.ToUpperInvariant(what[0])}{what[1..]} are \"{text}\"; wanted a number such as \"20\", or nothing.";
        return null;
    }

    /// <summary>When it happened, UTC; null for now. What a phone kept meanwhile is that much older.</summary>
    private static bool TryWhen(IFormCollection form, double speed, LocalClock clock, out DateTimeOffset? at, out string whyNot)
    {
        (at, whyNot) = (null, "");
        var kept = double.TryParse(form[Kept], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var seconds) && seconds is > 0 and < 1e7
            ? TimeSpan.FromSeconds(seconds * speed)
            : TimeSpan.Zero;
        var tapped = clock.Now.Utc - kept;
        if (form[When] == AtTime)
        {
            if (!TryTime(form[At].ToString(), out var time))
            {
                whyNot = $"The time at which it happened is \"{Line(form[At])}\"; wanted a time of day such as \"14:05\".";
                return false;
            }

            at = clock.Last(time!.Value, tapped);
        }
        else
        {
            var ago = int.TryParse(form[When], NumberStyles.None, CultureInfo.InvariantCulture, out var minutes) ? TimeSpan.FromMinutes(Math.Min(minutes, 10_000)) : TimeSpan.Zero;
            at = ago + kept > TimeSpan.Zero ? tapped - ago : null;
        }

        return true;
    }

    /// <summary>What was typed, on one line; null for nothing.</summary>
    public static string? Line(string? typed) => FreeText.Clean(typed) is { Length: > 0 } line ? line : null;

    private static EntryDraft? HeaterOn(EntryDraft draft, IFormCollection form, out string whyNot)
    {
        whyNot = "";
        if (Line(form[Ready]) is not { } text)
        {
            return draft;
        }

        if (!TryTime(text, out var time))
        {
            whyNot = $"The time by which the vat should be ready is \"{text}\"; wanted a time of day such as \"09:00\", or nothing.";
            return null;
        }

        return draft with { ReadyAt = time };
    }

    private static EntryDraft? Added(EntryDraft draft, IFormCollection form, DisplayUnits units, out string whyNot)
    {
        whyNot = "";
        if (EnumWord.Find<Material>(form[Material]) is not { } material)
        {
            whyNot = "The form does not say what was added; go back to the vat and choose one.";
            return null;
        }

        var text = Line(form[Amount]) ?? "";
        if (!DyersQuantity.TryAmount(text, material, units, out var amount))
        {
            whyNot = $"The amount of {material.Name()} is \"{text}\"; wanted {DyersQuantity.Wanted(material, units)}.";
            return null;
        }

        return VatBookFields.WithStrength(draft with { Material = material, Amount = amount }, material, form, out whyNot);
    }
}
