namespace VatWatch.Conditions;

/// <summary>What may be wrong with a vat, its heater or a probe.</summary>
public enum DiagnosisKind
{
    /// <summary>The heater should be on, but the liquor does not warm: dead, tripped or unplugged.</summary>
    HeaterNotHeating,

    /// <summary>The heater gives clearly less than it has learned to.</summary>
    WeakHeater,

    /// <summary>The liquor warms although the heater should be off.</summary>
    HeaterStuckOn,

    /// <summary>The vat loses more heat than it has learned to: lid or insulation off.</summary>
    LosingHeat,

    /// <summary>The temperature falls faster than any vat can cool: the probe is out of the liquor.</summary>
    ProbeOutOfLiquor,

    /// <summary>Hot above, cold below: the vat is not mixed.</summary>
    Stratified,

    /// <summary>pH or ORP steps with the heater: leakage current.</summary>
    LeakageCurrent,

    /// <summary>The heater draws power, the liquor does not warm and its level is low: the element may be dry.</summary>
    ElementUncovered,

    /// <summary>A probe repeats one value that used to move.</summary>
    FrozenValue,

    /// <summary>Something cold went in: wet yarn or a top-up. For information; nothing is wrong.</summary>
    ColdLoad,

    /// <summary>Recoveries after dips take longer or fall short: the reducing agent runs out.</summary>
    ReducerRunningOut,
}
