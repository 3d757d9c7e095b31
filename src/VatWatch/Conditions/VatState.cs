using System.Text.Json.Serialization;

namespace VatWatch.Conditions;

/// <summary>The one word for a vat's condition.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<VatState>))]
public enum VatState
{
    /// <summary>What it rests on is missing or not good.</summary>
    [JsonStringEnumMemberName("unknown")]
    Unknown,

    /// <summary>Below the band and rising.</summary>
    [JsonStringEnumMemberName("warming")]
    Warming,

    /// <summary>In the band, reduced, alkaline: dye.</summary>
    [JsonStringEnumMemberName("ready")]
    Ready,

    /// <summary>Recovering after a dip or an addition.</summary>
    [JsonStringEnumMemberName("resting")]
    Resting,

    /// <summary>Below the band and not rising.</summary>
    [JsonStringEnumMemberName("too cold")]
    TooCold,

    /// <summary>Above the band.</summary>
    [JsonStringEnumMemberName("too hot")]
    TooHot,

    /// <summary>Reduction is weak.</summary>
    [JsonStringEnumMemberName("weak")]
    Weak,

    /// <summary>The vat is oxidised.</summary>
    [JsonStringEnumMemberName("oxidised")]
    Oxidised,

    /// <summary>pH below the band.</summary>
    [JsonStringEnumMemberName("alkali low")]
    AlkaliLow,

    /// <summary>pH above the band.</summary>
    [JsonStringEnumMemberName("alkali high")]
    AlkaliHigh,
}
