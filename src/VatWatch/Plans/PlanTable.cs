using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Store;
using VatWatch.Store.Sql;

namespace VatWatch.Plans;

/// <summary>Plans that are kept, as the store has them: one warm-up for each vat, and the plan of each day.</summary>
public static class PlanTable
{
    private const string WarmUp = "warm";
    private const string Day = "day";
    private const string Foretold = "foretold";

    /// <summary>A plan for a day belongs to work that begins within this of it.</summary>
    private static readonly TimeSpan SameDay = TimeSpan.FromHours(12);

    /// <summary>Keeps a vat's warm-up in place of the one before; null drops it.</summary>
    public static void Keep(StoreTransaction transaction, VatId vat, KeptWarmPlan? plan, DateTimeOffset now)
    {
        if (plan is null)
        {
            transaction.Sql.Execute("DELETE FROM plan WHERE vat = $vat AND kind = $kind", ("$vat", vat.Value), ("$kind", WarmUp));
        }
        else
        {
            Keep(transaction, vat, WarmUp, 0, now, JsonSerializer.Serialize(plan, PlanJson.Default.KeptWarmPlan));
        }
    }

    public static void Keep(StoreTransaction transaction, VatId vat, KeptDayPlan plan, DateTimeOffset now) =>
        Keep(transaction, vat, Day, StoredTime.Of(plan.Plan.Begins), now, JsonSerializer.Serialize(plan, PlanJson.Default.KeptDayPlan));

    /// <summary>Keeps what was foretold of a warm-up; what was foretold first of the same wish stands, since later looks know more than the person who had to switch.</summary>
    public static void Keep(StoreTransaction transaction, VatId vat, ForetoldWarmUp foretold, DateTimeOffset now)
    {
        var before = transaction.Sql.Query(
            "SELECT json FROM plan WHERE vat = $vat AND kind = $kind AND begins = $begins",
            row => JsonSerializer.Deserialize(row.GetString(0), PlanJson.Default.ForetoldWarmUp),
            ("$vat", vat.Value),
            ("$kind", Foretold),
            ("$begins", StoredTime.Of(foretold.Wish))).FirstOrDefault();
        if (before?.TargetC.Equals(foretold.TargetC) != true)
        {
            Keep(transaction, vat, Foretold, StoredTime.Of(foretold.Wish), now, JsonSerializer.Serialize(foretold, PlanJson.Default.ForetoldWarmUp));
        }
    }

    /// <summary>What was foretold of the last warm-up whose wish lies in a stretch of time; null without one.</summary>
    public static ForetoldWarmUp? ForetoldIn(StoreReader reader, VatId vat, DateTimeOffset from, DateTimeOffset to) => reader.Guard(() => reader.Sql.Query(
        "SELECT json FROM plan WHERE vat = $vat AND kind = $kind AND begins BETWEEN $from AND $to ORDER BY begins DESC LIMIT 1",
        row => JsonSerializer.Deserialize(row.GetString(0), PlanJson.Default.ForetoldWarmUp),
        ("$vat", vat.Value),
        ("$kind", Foretold),
        ("$from", StoredTime.Of(from)),
        ("$to", StoredTime.Of(to)))).FirstOrDefault();

    /// <summary>The warm-up of every vat that has one. One that cannot be read is left out.</summary>
    public static IReadOnlyDictionary<VatId, KeptWarmPlan> WarmUps(StoreReader reader) => reader.Guard(() => reader.Sql.Query(
            "SELECT vat, json FROM plan WHERE kind = $kind", row => (Vat: new VatId(row.GetString(0)), Plan: JsonSerializer.Deserialize(row.GetString(1), PlanJson.Default.KeptWarmPlan)), ("$kind", WarmUp)))
        .Where(kept => kept.Plan is { IsPlausible: true })
        .ToDictionary(kept => kept.Vat, kept => kept.Plan!);

    /// <summary>The same of one vat, from inside the writer's transaction.</summary>
    public static KeptWarmPlan? WarmUpOf(StoreTransaction transaction, VatId vat) => transaction.Sql.Query(
        "SELECT json FROM plan WHERE vat = $vat AND kind = $kind", row => JsonSerializer.Deserialize(row.GetString(0), PlanJson.Default.KeptWarmPlan), ("$vat", vat.Value), ("$kind", WarmUp)).FirstOrDefault();

    /// <summary>The plan of the day in which <paramref name="at"/> lies, the nearest that was kept; null without one.</summary>
    public static KeptDayPlan? DayOf(StoreReader reader, VatId vat, DateTimeOffset at) => reader.Guard(() => reader.Sql.Query(
        "SELECT json FROM plan WHERE vat = $vat AND kind = $kind AND begins BETWEEN $from AND $to ORDER BY abs(begins - $at), utc DESC LIMIT 1",
        row => JsonSerializer.Deserialize(row.GetString(0), PlanJson.Default.KeptDayPlan),
        ("$vat", vat.Value),
        ("$kind", Day),
        ("$from", StoredTime.Of(at - SameDay)),
        ("$to", StoredTime.Of(at + SameDay)),
        ("$at", StoredTime.Of(at)))).FirstOrDefault();

    /// <summary>Reads every plan, so that those that cannot be read are told.</summary>
    public static void ReadAll(StoreReader reader)
    {
        _ = WarmUps(reader);
        Read(Day, PlanJson.Default.KeptDayPlan);
        Read(Foretold, PlanJson.Default.ForetoldWarmUp);

        void Read<T>(string kind, JsonTypeInfo<T> shape) =>
            reader.Guard(() => reader.Sql.Query("SELECT vat, kind, json FROM plan WHERE kind = $kind", row => JsonSerializer.Deserialize(row.GetString(2), shape), ("$kind", kind)));
    }

    private static void Keep(StoreTransaction transaction, VatId vat, string kind, long begins, DateTimeOffset now, string json) => transaction.Sql.Execute(
        "INSERT OR REPLACE INTO plan (vat, kind, begins, utc, json) VALUES ($vat, $kind, $begins, $utc, $json)",
        ("$vat", vat.Value),
        ("$kind", kind),
        ("$begins", begins),
        ("$utc", StoredTime.Of(now)),
        ("$json", json));
}

/// <summary>Reader and writer made at build time.</summary>
[JsonSerializable(typeof(KeptWarmPlan))]
[JsonSerializable(typeof(KeptDayPlan))]
[JsonSerializable(typeof(ForetoldWarmUp))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, RespectRequiredConstructorParameters = true, UseStringEnumConverter = true, IncludeFields = true)]
internal sealed partial class PlanJson : JsonSerializerContext;
