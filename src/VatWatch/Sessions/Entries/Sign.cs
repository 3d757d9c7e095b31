using System.Text.Json.Serialization;

namespace VatWatch.Sessions.Entries;

/// <summary>What a dyer sees and smells at a vat.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Sign>))]
public enum Sign
{
    /// <summary>Blue-bronze foam stands on the liquor.</summary>
    [JsonStringEnumMemberName("flower")]
    Flower,

    /// <summary>None does, even after stirring.</summary>
    [JsonStringEnumMemberName("no-flower")]
    NoFlower,

    /// <summary>A coppery film forms on the still surface.</summary>
    [JsonStringEnumMemberName("sheen")]
    Sheen,

    /// <summary>None does.</summary>
    [JsonStringEnumMemberName("no-sheen")]
    NoSheen,

    /// <summary>The liquor is clear and yellow to yellow-green.</summary>
    [JsonStringEnumMemberName("yellow")]
    Yellow,

    /// <summary>The liquor is green.</summary>
    [JsonStringEnumMemberName("green")]
    Green,

    /// <summary>The liquor is blue and turbid.</summary>
    [JsonStringEnumMemberName("blue")]
    Blue,

    /// <summary>The liquor is greenish white and turbid.</summary>
    [JsonStringEnumMemberName("milky")]
    Milky,

    /// <summary>It smells of ammonia.</summary>
    [JsonStringEnumMemberName("ammonia")]
    Ammonia,

    [JsonStringEnumMemberName("no-ammonia")]
    NoAmmonia,

    /// <summary>Goods come out pale although the liquor is yellow.</summary>
    [JsonStringEnumMemberName("pale")]
    Pale,

    /// <summary>Seconds until a drop of liquor on glass turns blue.</summary>
    [JsonStringEnumMemberName("drop")]
    Drop,

    /// <summary>Seconds until a test skein, lifted out, turns blue.</summary>
    [JsonStringEnumMemberName("skein")]
    Skein,
}
