using System.Text.Json.Serialization;

namespace VatWatch.Sessions.Entries;

/// <summary>What a dyer reads by hand.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<HandReading>))]
public enum HandReading
{
    /// <summary>pH by a strip or a hand meter.</summary>
    [JsonStringEnumMemberName("ph")]
    Ph,

    /// <summary>Temperature of the liquor by a thermometer; °C.</summary>
    [JsonStringEnumMemberName("temperature")]
    Temperature,

    /// <summary>ORP by a hand meter, against the vat's reference electrode; mV.</summary>
    [JsonStringEnumMemberName("orp")]
    Orp,

    /// <summary>Indigo in the liquor by an assay or a swatch; g/L.</summary>
    [JsonStringEnumMemberName("indigo")]
    Indigo,

    /// <summary>Alkalinity by titration; meq/L.</summary>
    [JsonStringEnumMemberName("alkalinity")]
    Alkalinity,
}

[JsonConverter(typeof(JsonStringEnumConverter<GoodsKind>))]
public enum GoodsKind
{
    /// <summary>Skeins.</summary>
    [JsonStringEnumMemberName("yarn")]
    Yarn,

    /// <summary>Cloth by the length.</summary>
    [JsonStringEnumMemberName("cloth")]
    Cloth,

    /// <summary>Made-up goods.</summary>
    [JsonStringEnumMemberName("garment")]
    Garment,
}
