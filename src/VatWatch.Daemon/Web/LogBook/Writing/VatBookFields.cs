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

    /// <summary>The entry with what the form says.</summary>
    /// <exception cref="UnusableFormException">It does not say enough.</exception>
    public static EntryDraft Read(EntryDraft draft, IFormCollection form, DisplayUnits units)
    {
        var typed = EntryFields.Line(form[EntryFields.Amount]) ?? "";
        return draft.Kind switch
        {
            EntryKind.Sign => Seen(draft, form, typed),
            EntryKind.Reading => ReadByHand(draft, form, typed, units),
            EntryKind.Goods => OfGoods(draft, form, typed, units),
            _ => DyersQuantity.TryAmount(typed, Material.Water, units, out var litres)
                ? draft with { Amount = litres }
                : throw new UnusableFormException($"The amount of liquor is \"{typed}\"; wanted {DyersQuantity.Wanted(Material.Water, units)}."),
        };
    }

    /// <summary>An addition with its strength, where the form has one.</summary>
    /// <exception cref="UnusableFormException">The strength cannot be read.</exception>
    public static EntryDraft WithStrength(EntryDraft draft, Material material, IFormCollection form)
    {
        if (EntryFields.Line(form[Strength]) is not { } typed)
        {
            return draft;
        }

        var (unit, example) = material == Material.Stock ? ("g/L", "60 g/L") : ("%", "88 %");
        return EntryValue.Strength(material, DyersQuantity.WithUnit(typed, unit)) is { } strength
            ? draft with { Strength = strength }
            : throw new UnusableFormException($"The strength of {material.Name()} is \"{typed}\"; wanted one such as \"{example}\", a bare number in {unit}, or nothing.");
    }

    /// <summary>The unit in which a reading is told on the page; empty for pH.</summary>
    public static string UnitOf(HandReading reading, DisplayUnits units) => reading switch
    {
        HandReading.Ph => "",
        HandReading.Temperature => units.TemperatureUnit,
        _ => reading.Unit(),
    };

    private static EntryDraft Seen(EntryDraft draft, IFormCollection form, string typed)
    {
        var sign = EnumWord.Find<Sign>(form[Sign]) ?? throw new UnusableFormException("The form does not say what was seen; go back to the vat and choose a sign.");
        return !sign.IsTimed()
            ? typed.Length == 0
                ? draft with { Sign = sign }
                : throw new UnusableFormException($"The seconds are \"{typed}\" beside \"{sign.Line(null)}\"; wanted none, or a drop or a test skein that was timed.")
            : DyersQuantity.TrySeconds(typed, out var seconds)
                ? draft with { Sign = sign, Amount = seconds }
                : throw new UnusableFormException($"The time until it turned blue is \"{typed}\"; wanted seconds such as \"12\".");
    }

    private static EntryDraft ReadByHand(EntryDraft draft, IFormCollection form, string typed, DisplayUnits units)
    {
        var reading = EnumWord.Find<HandReading>(form[Reading]) ?? throw new UnusableFormException("The form does not say what was read; go back to the vat and choose it.");
        var unit = UnitOf(reading, units);
        return EntryValue.Value(reading, DyersQuantity.WithUnit(typed, unit)) is { } value
            ? draft with { Reading = reading, Amount = value }
            : throw new UnusableFormException($"The {reading.Name()} that was read is \"{typed}\"; wanted {(unit.Length == 0 ? "a number such as \"9.8\"" : $"a number in {unit}, or one with its unit")}.");
    }

    private static EntryDraft OfGoods(EntryDraft draft, IFormCollection form, string typed, DisplayUnits units)
    {
        var goods = EnumWord.Find<GoodsKind>(form[Goods]) ?? throw new UnusableFormException("The form does not say what the goods are; go back to the vat and choose yarn, cloth or garment.");
        return DyersQuantity.TryMass(typed, units, out var grams)
            ? draft with { Goods = goods, Amount = grams }
            : throw new UnusableFormException($"The dry weight is \"{typed}\"; wanted {DyersQuantity.Wanted(Material.SodaAsh, units)}.");
    }
}
