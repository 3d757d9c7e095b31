namespace VatWatch.Sessions;

/// <summary>Words of entries as files, addresses and pages write them.</summary>
public static class EntryText
{
    private static readonly Dictionary<string, EntryKind> Kinds = Enum.GetValues<EntryKind>().ToDictionary(Word, StringComparer.Ordinal);
    private static readonly Dictionary<string, Material> Materials = Enum.GetValues<Material>().ToDictionary(Word, StringComparer.Ordinal);
    private static readonly Dictionary<string, Verdict> Verdicts = Enum.GetValues<Verdict>().ToDictionary(Word, StringComparer.Ordinal);

    /// <summary>For example "dip-in".</summary>
    public static string Word(this EntryKind kind) => kind switch
    {
        EntryKind.DipIn => "dip-in",
        EntryKind.DipOut => "dip-out",
        EntryKind.Added => "added",
        EntryKind.Stirred => "stirred",
        EntryKind.LidOff => "lid-off",
        EntryKind.LidOn => "lid-on",
        EntryKind.Note => "note",
        EntryKind.Photo => "photo",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "is not a kind of entry"),
    };

    /// <summary>For example "soda-ash".</summary>
    public static string Word(this Material material) => material switch
    {
        Material.SodaAsh => "soda-ash",
        Material.ReducingAgent => "reducing-agent",
        Material.Stock => "stock",
        Material.Water => "water",
        _ => throw new ArgumentOutOfRangeException(nameof(material), material, "is not a material"),
    };

    /// <summary>"good" or "poor".</summary>
    public static string Word(this Verdict verdict) => verdict == Verdict.Good ? "good" : "poor";

    /// <summary>"g" for what is weighed, "L" for what is poured.</summary>
    public static string Unit(this Material material) => material is Material.Stock or Material.Water ? "L" : "g";

    /// <summary>For people, for example "soda ash".</summary>
    public static string Name(this Material material) => material.Word().Replace('-', ' ');

    /// <summary>An amount in the dyer's units, for example "3.5 oz" or "2 L".</summary>
    public static string Amount(this Material material, double amount, DisplayUnits units) => material.Unit() == "g"
        ? units.Mass(amount)
        : units.IsUs ? units.Volume(amount) : $"{Math.Round(amount, 1):0.#} L";

    /// <summary>The kind by its word; null for any other.</summary>
    public static EntryKind? KindOf(string? word) => word is not null && Kinds.TryGetValue(word, out var kind) ? kind : null;

    /// <summary>The material by its word; null for any other.</summary>
    public static Material? MaterialOf(string? word) => word is not null && Materials.TryGetValue(word, out var material) ? material : null;

    /// <summary>The verdict by its word; null for any other.</summary>
    public static Verdict? VerdictOf(string? word) => word is not null && Verdicts.TryGetValue(word, out var verdict) ? verdict : null;

    /// <summary>What an entry tells, as one line for people, for example "added 3.5 oz of soda ash".</summary>
    public static string Line(this SessionEntry entry, DisplayUnits units)
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
            EntryKind.Note => entry.Text ?? "",
            _ => "picture",
        };
        return entry is { Text: { Length: > 0 } text, Kind: not EntryKind.Note } ? $"{line}: {text}" : line;
    }
}
