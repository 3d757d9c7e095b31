namespace VatWatch.Sessions;

/// <summary>Entries in words for people.</summary>
public static class EntryText
{
    /// <summary>"g" for what is weighed, "L" for what is poured.</summary>
    public static string Unit(this Material material) => material is Material.Stock or Material.Water ? "L" : "g";

    /// <summary>For people, for example "soda ash".</summary>
    public static string Name(this Material material) => material.Word().Replace('-', ' ');

    /// <summary>An amount in the dyer's units, for example "3.5 oz" or "2 L".</summary>
    public static string Amount(this Material material, double amount, DisplayUnits units) => material.Unit() == "g"
        ? units.Mass(amount)
        : units.IsUs ? units.Volume(amount) : $"{Math.Round(amount, 1):0.#} L";

    /// <summary>What an entry tells, as one line for people, for example "added 3.5 oz of soda ash".</summary>
    /// <param name="entry">The entry.</param>
    /// <param name="units">The dyer's units.</param>
    /// <param name="zone">Time zone of the site.</param>
    public static string Line(this SessionEntry entry, DisplayUnits units, TimeZoneInfo zone)
    {
        var line = entry.Kind switch
        {
            EntryKind.DipIn => "yarn in",
            EntryKind.DipOut => "yarn out",
            EntryKind.Added when entry is { Material: { } material, Amount: { } amount } => $"added {material.Amount(amount, units)} of {material.Name()}",
            EntryKind.Added => $"added {entry.Material?.Name() ?? "something"}",
            EntryKind.Stirred => "stirred",
            EntryKind.LidOff => "lid off",
            EntryKind.LidOn => "lid on",
            EntryKind.HeaterOn => entry.ReadyBy is { } readyBy ? $"heater on, to be ready at {TimeZoneInfo.ConvertTime(readyBy, zone):HH:mm}" : "heater on",
            EntryKind.HeaterOff => "heater off",
            EntryKind.Note => entry.Text ?? "",
            _ => "picture",
        };
        return entry is { Text: { Length: > 0 } text, Kind: not EntryKind.Note } ? $"{line}: {text}" : line;
    }
}
