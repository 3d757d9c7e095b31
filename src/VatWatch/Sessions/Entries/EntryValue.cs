using System.Diagnostics.CodeAnalysis;
using System.Text.RegularExpressions;
using VatWatch.Vats.Configuration;

namespace VatWatch.Sessions.Entries;

/// <summary>
/// What an entry tells beside its kind, as people write it: "stock 2 L of 60 g/L" of what was added, "5 L" of what was drawn off, "ph 9.8" of a reading by hand, "drop 12 s" of a sign,
/// "yarn 500 g" of goods. Units are as <see cref="Typed"/> reads them. Whether the value is possible is for <see cref="SessionRules"/> to say.
/// </summary>
public static partial class EntryValue
{
    /// <summary>Reads the value into the entry; false with what was wanted, for a sentence. Kinds that have no value of this sort are given back as they are.</summary>
    public static bool TryRead(EntryDraft draft, string value, out EntryDraft read, [NotNullWhen(false)] out string? wanted)
    {
        var (found, example) = draft.Kind switch
        {
            EntryKind.Added => (Added(draft, value), $"what was added and how much, such as {string.Join(", ", Enum.GetValues<Material>().Select(one => $"\"{one.Word()} 50 {one.Unit()}\""))}, or with its strength \"stock 2 L of 60 g/L\""),
            EntryKind.DrawnOff or EntryKind.MadeAnew => (Litres(draft, value), "a volume such as \"5 L\" or \"2 gal\""),
            EntryKind.Reading => (Reading(draft, value), "what was read and its value, such as \"ph 9.8\", \"temperature 44 °C\", \"orp -640 mV\", \"indigo 2 g/L\" or \"alkalinity 20 meq/L\""),
            EntryKind.Sign => (Sign(draft, value), $"a sign: {string.Join(", ", Enum.GetValues<Sign>().Select(one => one.IsTimed() ? $"\"{one.Word()} 12 s\"" : one.Word()))}"),
            EntryKind.Goods => (Goods(draft, value), "the kind of goods and their dry weight, such as \"yarn 500 g\", \"cloth 2 lb\" or \"garment 300 g\""),
            _ => (draft, ""),
        };
        (read, wanted) = found is null ? (draft, example) : (found, null);
        return found is not null;
    }

    /// <summary>Whether the seconds of a sign are told.</summary>
    public static bool IsTimed(this Sign sign) => sign is Entries.Sign.Drop or Entries.Sign.Skein;

    /// <summary>An amount of a material in its unit; null when it is none.</summary>
    public static double? Amount(Material material, string text) => Of(material.Unit() == "g" ? QuantityKind.Mass : QuantityKind.Volume, text);

    /// <summary>The strength of a material: g/L of a stock, a share above 0 to 1 of what is weighed; null when it is none.</summary>
    public static double? Strength(Material material, string text) =>
        material == Material.Stock ? Of(QuantityKind.Concentration, text) : Of(QuantityKind.Percent, text) / 100;

    /// <summary>A value read by hand, in its unit; null when it is none.</summary>
    public static double? Value(HandReading reading, string text) => reading switch
    {
        HandReading.Ph => Typed.TryNumber(text, out var ph) ? ph : null,
        HandReading.Temperature => Of(QuantityKind.Temperature, text),
        HandReading.Orp => Of(QuantityKind.Potential, text),
        HandReading.Indigo => Of(QuantityKind.Concentration, text),
        _ => Of(QuantityKind.Alkalinity, text),
    };

    private static double? Of(QuantityKind kind, string text) => kind.TryParse(Typed.Quantity(text), out var value) ? value : null;

    private static EntryDraft? Added(EntryDraft draft, string value)
    {
        var match = MaterialAmountStrength().Match(value);
        if (!match.Success || EnumWord.Find<Material>(match.Groups["word"].Value) is not { } material || Amount(material, match.Groups["amount"].Value) is not { } amount)
        {
            return null;
        }

        if (match.Groups["strength"] is not { Success: true, Value: var strong })
        {
            return draft with { Material = material, Amount = amount };
        }

        return Strength(material, strong) is { } strength ? draft with { Material = material, Amount = amount, Strength = strength } : null;
    }

    private static EntryDraft? Litres(EntryDraft draft, string value) => Of(QuantityKind.Volume, value) is { } litres ? draft with { Amount = litres } : null;

    private static EntryDraft? Reading(EntryDraft draft, string value) =>
        Parts(value) is var (word, rest) && EnumWord.Find<HandReading>(word) is { } reading && Value(reading, rest) is { } number ? draft with { Reading = reading, Amount = number } : null;

    private static EntryDraft? Sign(EntryDraft draft, string value)
    {
        var (word, rest) = Parts(value);
        return EnumWord.Find<Sign>(word) is not { } sign ? null
            : !sign.IsTimed() ? rest.Length == 0 ? draft with { Sign = sign } : null
            : Of(QuantityKind.Duration, rest) is { } seconds ? draft with { Sign = sign, Amount = seconds }
            : null;
    }

    private static EntryDraft? Goods(EntryDraft draft, string value) =>
        Parts(value) is var (word, rest) && EnumWord.Find<GoodsKind>(word) is { } goods && Of(QuantityKind.Mass, rest) is { } grams ? draft with { Goods = goods, Amount = grams } : null;

    private static (string Word, string Tail) Parts(string value)
    {
        var text = value.Trim();
        var end = text.IndexOf(' ', StringComparison.Ordinal);
        return end < 0 ? (text, "") : (text[..end], text[end..].Trim());
    }

    /// <summary>"soda-ash 50 g", "stock 2 L of 60 g/L", "reducing-agent 20 g 88 %"; no sign, since nothing is added that is below nothing.</summary>
    [GeneratedRegex(@"^\s*(?<word>[a-z-]+)\s+(?<amount>\d[\d.,]*\s*[^\d\s]+)(\s+(of\s+)?(?<strength>\d[\d.,]*\s*[^\d\s]+))?\s*$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex MaterialAmountStrength();
}
