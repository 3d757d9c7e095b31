namespace VatWatch.Sessions.Entries;

/// <summary>Entries in words for people.</summary>
public static class EntryText
{
    /// <summary>"g" for what is weighed, "L" for what is poured.</summary>
    public static string Unit(this Material material) => material is Material.Stock or Material.Water ? "L" : "g";

    /// <summary>For people, for example "pH".</summary>
    public static string Name(this HandReading reading) => reading switch
    {
        HandReading.Ph => "pH",
        HandReading.Orp => "ORP",
        _ => reading.Word(),
    };

    public static string Unit(this HandReading reading) => reading switch
    {
        HandReading.Ph => "pH",
        HandReading.Temperature => "°C",
        HandReading.Orp => "mV",
        HandReading.Indigo => "g/L",
        _ => "meq/L",
    };

    /// <summary>The unit of an entry's amount; null for one that has none.</summary>
    public static string? Unit(this SessionEntry entry) => entry.Kind switch
    {
        EntryKind.Added => entry.Material?.Unit(),
        EntryKind.DrawnOff or EntryKind.MadeAnew => "L",
        EntryKind.Reading => entry.Reading?.Unit(),
        EntryKind.Sign when entry.Amount is not null => "s",
        EntryKind.Goods => "g",
        _ => null,
    };

    /// <summary>For people, for example "soda ash".</summary>
    public static string Name(this Material material) => material.Word().Replace('-', ' ');

    /// <summary>An amount in the dyer's units, for example "3.5 oz" or "2 L".</summary>
    public static string Amount(this Material material, double amount, DisplayUnits units) => material.Unit() == "g"
        ? units.Mass(amount)
        : units.IsUs ? units.Volume(amount) : $"{Math.Round(amount, 1):0.#} L";

    /// <summary>How strong a material is, for example ", 60 g/L" or ", 88 %"; nothing where nobody said.</summary>
    private static string Strength(this Material material, double? strength) =>
        strength is not { } value ? "" : material == Material.Stock ? $", {value:0.#} g/L" : $", {100 * value:0.#} %";

    /// <summary>A value read by hand, in the dyer's units.</summary>
    private static string Value(this HandReading reading, double value, DisplayUnits units) => reading switch
    {
        HandReading.Ph => $"pH {value:0.0#}",
        HandReading.Temperature => units.Temperature(value),
        HandReading.Orp => $"ORP {value:0} mV",
        HandReading.Indigo => $"indigo {value:0.##} g/L",
        _ => $"alkalinity {value:0.#} meq/L",
    };

    /// <summary>What a sign tells, for example "no flower" or "a drop turned blue in 12 s".</summary>
    public static string Line(this Sign sign, double? seconds) => sign switch
    {
        Sign.NoFlower => "no flower",
        Sign.Sheen => "coppery sheen",
        Sign.NoSheen => "no sheen",
        Sign.Yellow => "liquor clear and yellow",
        Sign.Green => "liquor green",
        Sign.Blue => "liquor blue and turbid",
        Sign.Milky => "liquor milky",
        Sign.Ammonia => "smells of ammonia",
        Sign.NoAmmonia => "no smell of ammonia",
        Sign.Pale => "goods come out pale",
        Sign.Drop => $"a drop turned blue in {seconds:0} s",
        Sign.Skein => $"a test skein turned blue in {seconds:0} s",
        _ => "flower",
    };

    /// <summary>What an entry tells, as one line for people, for example "added 3.5 oz of soda ash".</summary>
    public static string Line(this SessionEntry entry, DisplayUnits units, TimeZoneInfo zone)
    {
        var line = entry.Kind switch
        {
            EntryKind.DipIn => "yarn in",
            EntryKind.DipOut => "yarn out",
            EntryKind.Added when entry is { Material: { } material, Amount: { } amount } => $"added {material.Amount(amount, units)} of {material.Name()}{material.Strength(entry.Strength)}",
            EntryKind.Added => $"added {entry.Material?.Name() ?? "something"}",
            EntryKind.Stirred => "stirred",
            EntryKind.LidOff => "lid off",
            EntryKind.LidOn => "lid on",
            EntryKind.HeaterOn => entry.ReadyBy is { } readyBy ? $"heater on, to be ready at {TimeZoneInfo.ConvertTime(readyBy, zone):HH:mm}" : "heater on",
            EntryKind.HeaterOff => "heater off",
            EntryKind.DrawnOff => $"drew off {Material.Water.Amount(entry.Amount ?? 0, units)} of liquor",
            EntryKind.MadeAnew => $"made anew with {Material.Water.Amount(entry.Amount ?? 0, units)}",
            EntryKind.Reading when entry is { Reading: { } reading, Amount: { } value } => $"read by hand: {reading.Value(value, units)}",
            EntryKind.Sign when entry.Sign is { } sign => sign.Line(entry.Amount),
            EntryKind.Goods => $"{units.Goods(entry.Amount ?? 0)} of {entry.Goods?.Word() ?? "goods"}, dry",
            EntryKind.Note => entry.Text ?? "",
            _ => "picture",
        };
        return entry is { Text: { Length: > 0 } text, Kind: not EntryKind.Note } ? $"{line}: {text}" : line;
    }
}
