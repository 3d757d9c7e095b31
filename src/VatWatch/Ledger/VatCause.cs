using System.Text.Json.Serialization;

namespace VatWatch.Ledger;

/// <summary>Why a vat dyes weakly.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<VatCause>))]
public enum VatCause
{
    /// <summary>It is too cold to reduce and to dye.</summary>
    [JsonStringEnumMemberName("cold")]
    Cold,

    /// <summary>Its alkali is used up.</summary>
    [JsonStringEnumMemberName("alkali")]
    Alkali,

    /// <summary>Its reducing agent is used up.</summary>
    [JsonStringEnumMemberName("reducing-agent")]
    ReducingAgent,

    /// <summary>Its dye is on the goods.</summary>
    [JsonStringEnumMemberName("dye-spent")]
    DyeSpent,

    /// <summary>Air gets in faster than the reducing agent can follow.</summary>
    [JsonStringEnumMemberName("air")]
    Air,

    /// <summary>Nothing: an electrode shows what is not so.</summary>
    [JsonStringEnumMemberName("electrode")]
    Electrode,
}

/// <summary>Causes in words.</summary>
public static class VatCauseText
{
    /// <summary>For people, for example "too little alkali".</summary>
    public static string Name(this VatCause cause) => cause switch
    {
        VatCause.Cold => "a vat that is too cold",
        VatCause.Alkali => "too little alkali",
        VatCause.ReducingAgent => "too little reducing agent",
        VatCause.DyeSpent => "too little dye",
        VatCause.Air => "air that gets in",
        _ => "an electrode that is wrong",
    };
}
