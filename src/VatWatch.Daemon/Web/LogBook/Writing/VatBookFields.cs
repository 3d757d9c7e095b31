using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Web.LogBook.Writing;

/// <summary>Turns the fields of what tells of the vat (signs, readings by hand, goods, liquor, strength) into an entry; what cannot be is told in a sentence.</summary>
internal static class VatBookFields
{
    /// <summary>Field of how strong what was added is.</summary>
    public const string Strength = "strength";

    /// <summary>Field of what was read by hand.</summary>
    public const string Reading = "reading";

    /// <summary>Field of what was seen.</summary>
    public const string Sign = "sign";

    /// <summary>Field of the kind of goods.</summary>
    public const string Goods = "goods";

    /// <summary>The entry with what the form says; null with the reason.</summary>
    public static EntryDraft? Read(EntryDraft draft, IFormCollection form, DisplayUnits units, out string whyNot)
    {
        var typed = EntryFields.Line(form[EntryFields.Amount]) ?? "";
        return draft.Kind switch
        {
            EntryKind.Sign => Seen(draft, form, typed, out whyNot),
            EntryKind.Reading => ReadByHand(draft, form, typed, units, out whyNot),
            EntryKind.Goods => OfGoods(draft, form, typed, units, out whyNot),
            _ => Liquor(draft, typed, units, out whyNot),
        };
    }

    /// <summary>An addition with its strength, where the form has one; null with the reason.</summary>
    public static EntryDraft? WithStrength(EntryDraft draft, Material material, IFormCollection form, out string whyNot)
    {
        whyNot = "";
        if (EntryFields.Line(form[Strength]) is not { } typed)
        {
            return draft;
        }

        var (unit, example) = material == Material.Stock ? ("g/L", "60 g/L") : ("%", "88 %");
        if (EntryValue.Strength(material, DyersQuantity.WithUnit(typed, unit)) is { } strength)
        {
            return draft with { Strength = strength };
        }

        whyNot = $"The strength of {material.Name()} is \"{typed}\"; wanted one such as \"{example}\", a bare number in {unit}, or nothing.";
        return null;
    }

    /// <summary>The unit in which a reading is told on the page; empty for pH.</summary>
    public static string UnitOf(HandReading reading, DisplayUnits units) => reading switch
    {
        HandReading.Ph => "",
        HandReading.Temperature => units.TemperatureUnit,
        _ => reading.Unit(),
    };

    private static EntryDraft? Seen(EntryDraft draft, IFormCollection form, string typed, out string whyNot)
    {
        whyNot = "";
        if (EnumWord.Find<Sign>(form[Sign]) is not { } sign)
        {
            whyNot = "The form does not say what was seen; go back to the vat and choose a sign.";
            return null;
        }

        if (!sign.IsTimed())
        {
            if (typed.Length == 0)
            {
                return draft with { Sign = sign };
            }

            whyNot = $"The seconds are \"{typed}\" beside \"{sign.Line(null)}\"; wanted none, or a drop or a test skein that was timed.";
            return null;
        }

        if (DyersQuantity.TrySeconds(typed, out var seconds))
        {
            return draft with { Sign = sign, Amount = seconds };
        }

        whyNot = $"The time until it turned blue is \"{typed}\"; wanted seconds such as \"12\".";
        return null;
    }

    private static EntryDraft? ReadByHand(EntryDraft draft, IFormCollection form, string typed, DisplayUnits units, out string whyNot)
    {
        whyNot = "";
        if (EnumWord.Find<HandReading>(form[Reading]) is not { } reading)
        {
            whyNot = "The form does not say what was read; go back to the vat and choose it.";
            return null;
        }

        var unit = UnitOf(reading, units);
        if (EntryValue.Value(reading, DyersQuantity.WithUnit(typed, unit)) is { } value)
        {
            return draft with { Reading = reading, Amount = value };
        }

        whyNot = $"The {reading.Name()} that was read is \"{typed}\"; wanted {(unit.Length == 0 ? "a number such as \"9.8\"" : $"a number in {unit}, or one with its unit")}.";
        return null;
    }

    private static EntryDraft? OfGoods(EntryDraft draft, IFormCollection form, string typed, DisplayUnits units, out string whyNot)
    {
        whyNot = "";
        if (EnumWord.Find<GoodsKind>(form[Goods]) is not { } goods)
        {
            whyNot = "The form does not say what the goods are; go back to the vat and choose yarn, cloth or garment.";
            return null;
        }

        if (DyersQuantity.TryMass(typed, units, out var grams))
        {
            return draft with { Goods = goods, Amount = grams };
        }

        whyNot = $"The dry weight is \"{typed}\"; wanted {DyersQuantity.Wanted(Material.SodaAsh, units)}.";
        return null;
    }

    private static EntryDraft? Liquor(EntryDraft draft, string typed, DisplayUnits units, out string whyNot)
    {
        whyNot = "";
        if (DyersQuantity.TryAmount(typed, Material.Water, units, out var litres))
        {
            return draft with { Amount = litres };
        }

        whyNot = $"The amount of liquor is \"{typed}\"; wanted {DyersQuantity.Wanted(Material.Water, units)}.";
        return null;
    }
}
