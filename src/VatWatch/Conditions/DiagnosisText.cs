namespace VatWatch.Conditions;

/// <summary>The words of <see cref="DiagnosisKind"/> as topics and files write them.</summary>
public static class DiagnosisText
{
    /// <summary>For example "heater-stuck-on".</summary>
    public static string Word(this DiagnosisKind kind) => kind switch
    {
        DiagnosisKind.HeaterNotHeating => "heater-not-heating",
        DiagnosisKind.WeakHeater => "weak-heater",
        DiagnosisKind.HeaterStuckOn => "heater-stuck-on",
        DiagnosisKind.LosingHeat => "losing-heat",
        DiagnosisKind.Stratified => "stratified",
        DiagnosisKind.LeakageCurrent => "leakage-current",
        DiagnosisKind.ElementUncovered => "element-uncovered",
        DiagnosisKind.ProbeOutOfLiquor => "probe-out-of-liquor",
        DiagnosisKind.FrozenValue => "frozen-value",
        DiagnosisKind.ColdLoad => "cold-load",
        DiagnosisKind.ReducerRunningOut => "reducer-running-out",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "is not a diagnosis"),
    };
}
