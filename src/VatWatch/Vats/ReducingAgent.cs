using System.Text.Json.Serialization;

namespace VatWatch.Vats;

/// <summary>What keeps the vat reduced.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<ReducingAgent>))]
public enum ReducingAgent
{
    /// <summary>Thiourea dioxide, CH4N2O2S.</summary>
    [JsonStringEnumMemberName("thiourea-dioxide")]
    ThioureaDioxide,

    /// <summary>Sodium dithionite, the "hydrosulfite" of the trade.</summary>
    [JsonStringEnumMemberName("dithionite")]
    Dithionite,

    /// <summary>Fructose with lime.</summary>
    [JsonStringEnumMemberName("fructose")]
    Fructose,

    /// <summary>Bacteria.</summary>
    [JsonStringEnumMemberName("fermentation")]
    Fermentation,
}
