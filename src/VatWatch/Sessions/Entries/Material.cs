using System.Text.Json.Serialization;

namespace VatWatch.Sessions.Entries;

/// <summary>What may be added to a vat.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Material>))]
public enum Material
{
    /// <summary>Anhydrous sodium carbonate; g.</summary>
    [JsonStringEnumMemberName("soda-ash")]
    SodaAsh,

    /// <summary>The vat's reducing agent; g.</summary>
    [JsonStringEnumMemberName("reducing-agent")]
    ReducingAgent,

    /// <summary>Reduced dye stock; L.</summary>
    [JsonStringEnumMemberName("stock")]
    Stock,

    /// <summary>Water; L.</summary>
    [JsonStringEnumMemberName("water")]
    Water,

    /// <summary>Dye as powder or paste, not reduced; g.</summary>
    [JsonStringEnumMemberName("indigo")]
    Indigo,

    /// <summary>Slaked lime, calcium hydroxide; g.</summary>
    [JsonStringEnumMemberName("lime")]
    Lime,

    /// <summary>Sodium hydroxide; g.</summary>
    [JsonStringEnumMemberName("lye")]
    Lye,

    /// <summary>Washing soda crystals, sodium carbonate decahydrate; g.</summary>
    [JsonStringEnumMemberName("washing-soda")]
    WashingSoda,
}
