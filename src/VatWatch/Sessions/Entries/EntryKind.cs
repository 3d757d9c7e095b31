using System.Text.Json.Serialization;

namespace VatWatch.Sessions.Entries;

/// <summary>What an entry of the log book tells.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<EntryKind>))]
public enum EntryKind
{
    /// <summary>The goods went into the liquor.</summary>
    [JsonStringEnumMemberName("dip-in")]
    DipIn,

    /// <summary>They came out.</summary>
    [JsonStringEnumMemberName("dip-out")]
    DipOut,

    [JsonStringEnumMemberName("added")]
    Added,

    /// <summary>The liquor was stirred.</summary>
    [JsonStringEnumMemberName("stirred")]
    Stirred,

    /// <summary>The lid came off.</summary>
    [JsonStringEnumMemberName("lid-off")]
    LidOff,

    /// <summary>The lid went on.</summary>
    [JsonStringEnumMemberName("lid-on")]
    LidOn,

    /// <summary>The heater was switched on at its plug or switch: a warm-up begins.</summary>
    [JsonStringEnumMemberName("heater-on")]
    HeaterOn,

    /// <summary>The heater was switched off.</summary>
    [JsonStringEnumMemberName("heater-off")]
    HeaterOff,

    /// <summary>The dyer wrote something down.</summary>
    [JsonStringEnumMemberName("note")]
    Note,

    /// <summary>A picture of the liquor or the goods.</summary>
    [JsonStringEnumMemberName("photo")]
    Photo,

    /// <summary>Liquor was drawn off; L.</summary>
    [JsonStringEnumMemberName("drawn-off")]
    DrawnOff,

    /// <summary>The liquor was made anew: what was in the vat before is gone.</summary>
    [JsonStringEnumMemberName("made-anew")]
    MadeAnew,

    /// <summary>Something was read by hand.</summary>
    [JsonStringEnumMemberName("reading")]
    Reading,

    /// <summary>A sign was seen or smelt.</summary>
    [JsonStringEnumMemberName("sign")]
    Sign,

    /// <summary>Goods that are about to be dipped, by their dry weight; g.</summary>
    [JsonStringEnumMemberName("goods")]
    Goods,
}
