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

    /// <summary>Power that the heater draws, as a share of its rated power; 1 on and 0 off where only that is known.</summary>
    [JsonStringEnumMemberName("heater")]
    Heater,

    /// <summary>What the heater's switch was told: 1 on, 0 off. It says nothing about power that flows.</summary>
    [JsonStringEnumMemberName("heater-command")]
    HeaterCommand,

    /// <summary>Liquor level, per cent of full.</summary>
    [JsonStringEnumMemberName("level")]
    Level,
}
