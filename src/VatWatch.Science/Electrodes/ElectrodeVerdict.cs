using System.Text.Json.Serialization;

namespace VatWatch.Science.Electrodes;

/// <summary>What a calibration says about the electrode it was made with.</summary>
public enum ElectrodeVerdict
{
    /// <summary>Inside the limits.</summary>
    [JsonStringEnumMemberName("good")]
    Good,

    /// <summary>Usable; clean, refill or replace soon.</summary>
    [JsonStringEnumMemberName("worn")]
    Worn,

    /// <summary>Readings are not to be trusted.</summary>
    [JsonStringEnumMemberName("unfit")]
    Unfit,
}
