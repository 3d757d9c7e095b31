using System.Text.Json.Serialization;

namespace VatWatch.Vats;

/// <summary>What a probe measures. The canonical unit of each is in <see cref="QuantityText"/>.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Quantity>))]
public enum Quantity
{
    /// <summary>Liquor temperature, °C.</summary>
    [JsonStringEnumMemberName("temperature")]
    Temperature,

    /// <summary>Room temperature, °C.</summary>
    [JsonStringEnumMemberName("ambient")]
    Ambient,

    /// <summary>pH of the liquor at its own temperature.</summary>
    [JsonStringEnumMemberName("ph")]
    Ph,

    /// <summary>Oxidation-reduction potential against the vat's named reference electrode, mV.</summary>
    [JsonStringEnumMemberName("orp")]
    Orp,

    /// <summary>Heater state: 1 drawing power, 0 not.</summary>
    [JsonStringEnumMemberName("heater")]
    Heater,

    /// <summary>Liquor level, per cent of full.</summary>
    [JsonStringEnumMemberName("level")]
    Level,
}
