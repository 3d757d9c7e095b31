namespace VatWatch.Conditions;

/// <summary>What may be wrong with a vat's heating, by the heat balance.</summary>
public enum DiagnosisKind
{
    /// <summary>The heater should be on, but the liquor does not warm: dead, tripped or uncovered element.</summary>
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
}
