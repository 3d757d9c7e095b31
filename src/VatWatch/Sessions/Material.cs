using System.Text.Json.Serialization;

namespace VatWatch.Sessions;

/// <summary>What may be added to a vat.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Material>))]
public enum Material
{
    /// <summary>Sodium carbonate; g.</summary>
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
}
