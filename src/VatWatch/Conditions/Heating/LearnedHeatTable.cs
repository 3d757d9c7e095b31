using System.Text.Json;
using System.Text.Json.Serialization;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Conditions.Heating;

/// <summary>Keeps what was learned of each vat's heat from one run of the daemon to the next.</summary>
public static class LearnedHeatTable
{
    /// <summary>Keeps the newest of a vat in place of the one before.</summary>
    public static void Keep(StoreTransaction transaction, VatId vat, DateTimeOffset utc, LearnedHeat learned) => transaction.Sql.Execute(
        "INSERT OR REPLACE INTO learned_heat (vat, utc, json) VALUES ($vat, $utc, $json)",
        ("$vat", vat.Value),
        ("$utc", StoredTime.Of(utc)),
        ("$json", JsonSerializer.Serialize(learned, LearnedHeatJson.Default.LearnedHeat)));

    /// <summary>What was kept of every vat. One that cannot be read is left out: it will be learned again.</summary>
    public static IReadOnlyDictionary<VatId, LearnedHeat> All(StoreReader reader) => reader.Guard(() => reader.Sql.Query(
            "SELECT vat, json FROM learned_heat", row => (Vat: new VatId(row.GetString(0)), Learned: Read(row.GetString(1)))))
        .Where(kept => kept.Learned is not null)
        .ToDictionary(kept => kept.Vat, kept => kept.Learned!);

    private static LearnedHeat? Read(string json)
    {
        try
        {
            return JsonSerializer.Deserialize(json, LearnedHeatJson.Default.LearnedHeat);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <summary>Reader and writer made at build time.</summary>
[JsonSerializable(typeof(LearnedHeat))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectRequiredConstructorParameters = true)]
internal sealed partial class LearnedHeatJson : JsonSerializerContext;
