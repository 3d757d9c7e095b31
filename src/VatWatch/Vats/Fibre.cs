using System.Text.Json.Serialization;

namespace VatWatch.Vats;

/// <summary>What is dyed: it decides how much alkali the goods stand.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<Fibre>))]
public enum Fibre
{
    /// <summary>Wool, silk, hair: harmed by alkali.</summary>
    [JsonStringEnumMemberName("protein")]
    Protein,

    /// <summary>Cotton, linen, hemp, viscose.</summary>
    [JsonStringEnumMemberName("cellulose")]
    Cellulose,
}
