using System.Globalization;
using VatWatch.Alarms;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Web.LogBook;

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

    /// <summary>Field of the picture.</summary>
    public const string Picture = "picture";

    /// <summary>Field of the yarn's dry weight.</summary>
    public const string Yarn = "yarn";

    /// <summary>Field of the fibre.</summary>
    public const string Fibre = "fibre";

    /// <summary>Field of the wanted shade.</summary>
    public const string Shade = "shade";

    /// <summary>Field of the verdict.</summary>
    public const string Verdict = "verdict";

    /// <summary>The entry; null with the reason.</summary>
    public static EntryDraft? Read(IFormCollection form, VatId vat, string by, DisplayUnits units, out string whyNot)
    {
        whyNot = "";
        if (EnumWord.Find<EntryKind>(form[Kind]) is not { } kind)
        {
            whyNot = "The form does not say what happened; go back and tap one of the buttons.";
            return null;
        }

        var draft = new EntryDraft(vat, kind, by) { Text = Line(form[Text]) };
        return kind switch
        {
            EntryKind.Added => Added(draft, form, units, out whyNot),
            EntryKind.HeaterOn => HeaterOn(draft, form, out whyNot),
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
                whyNot = $"The weight of the yarn is \"{text}\"; wanted {DyersQuantity.Wanted(Sessions.Material.SodaAsh, units)}.";
                return null;
            }

            yarn = grams;
        }

        return new(yarn, EnumWord.Find<Fibre>(form[Fibre]), Line(form[Shade]), EnumWord.Find<Verdict>(form[Verdict]));
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

        return draft with { Material = material, Amount = amount };
    }
}
