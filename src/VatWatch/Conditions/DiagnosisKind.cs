using System.Text.Json.Serialization;

namespace VatWatch.Conditions;

/// <summary>What may be wrong with a vat, its heater or a probe.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<DiagnosisKind>))]
public enum DiagnosisKind
{
    /// <summary>The heater should be on, but the liquor does not warm: dead, tripped or unplugged.</summary>
    [JsonStringEnumMemberName("heater-not-heating")]
    HeaterNotHeating,

    /// <summary>The heater gives clearly less than it has learned to.</summary>
    [JsonStringEnumMemberName("weak-heater")]
    WeakHeater,

    /// <summary>The liquor warms although the heater should be off.</summary>
    [JsonStringEnumMemberName("heater-stuck-on")]
    HeaterStuckOn,

    /// <summary>The vat loses more heat than it has learned to: lid or insulation off.</summary>
    [JsonStringEnumMemberName("losing-heat")]
    LosingHeat,

    /// <summary>No thermostat is known yet: nothing says where the heater will stop. For information, once.</summary>
    [JsonStringEnumMemberName("no-thermostat-known")]
    NoThermostatKnown,

    /// <summary>The liquor was warm and cools out of its band, and nobody entered that the heater is off.</summary>
    [JsonStringEnumMemberName("cools-out-of-band")]
    CoolsOutOfBand,

    /// <summary>The temperature falls faster than any vat can cool: the probe is out of the liquor.</summary>
    [JsonStringEnumMemberName("probe-out-of-liquor")]
    ProbeOutOfLiquor,

    /// <summary>Hot above, cold below: the vat is not mixed.</summary>
    [JsonStringEnumMemberName("stratified")]
    Stratified,

    /// <summary>pH or ORP steps with the heater: leakage current.</summary>
    [JsonStringEnumMemberName("leakage-current")]
    LeakageCurrent,

    /// <summary>The heater draws power, the liquor does not warm and its level is low: the element may be dry.</summary>
    [JsonStringEnumMemberName("element-uncovered")]
    ElementUncovered,

    /// <summary>A probe repeats one value that used to move.</summary>
    [JsonStringEnumMemberName("frozen-value")]
    FrozenValue,

    /// <summary>Something cold went in: wet yarn or a top-up. For information; nothing is wrong.</summary>
    [JsonStringEnumMemberName("cold-load")]
    ColdLoad,

    /// <summary>ORP has crept up for hours while pH and temperature stood still: the electrode may drift.</summary>
    [JsonStringEnumMemberName("electrode-drift")]
    ElectrodeDrift,

    /// <summary>Recoveries after dips take longer or fall short: the reducing agent runs out.</summary>
    [JsonStringEnumMemberName("reducer-running-out")]
    ReducerRunningOut,
}

/// <summary>One thing that seems wrong, with the sentence that says why. An opinion from the readings: it asks for a look, it proves nothing.</summary>
/// <param name="Sentence">Why, with its numbers; ends in a full stop.</param>
public sealed record Diagnosis(DiagnosisKind Kind, Sentence Sentence)
{
    /// <summary>When it began, as far as can be told; null when that is not known.</summary>
    public Stamp? Since { get; init; }

    /// <summary>The probe it is about; null where it is about the vat.</summary>
    public ProbeId? Probe { get; init; }

    /// <summary>One that began at a monotonic time.</summary>
    internal static Diagnosis Made(DiagnosisKind kind, Stamp now, TimeSpan since, Sentence sentence) => new(kind, sentence) { Since = now.Plus(since - now.Monotonic) };
}
