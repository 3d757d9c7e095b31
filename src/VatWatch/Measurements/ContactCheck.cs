using VatWatch.Science.Electrodes;

namespace VatWatch.Measurements;

/// <summary>An electrode that hangs in air or is not connected: its amplifier drifts to where no electrode in liquor can be.</summary>
/// <remarks>Limits: the indigo-chemistry reference's state "no vat contact": above +400 mV against Ag/AgCl in 3 M KCl, or 150 mV below the hydrogen line.</remarks>
internal sealed class ContactCheck(ProbeDefinition probe, VatDefinition vat)
{
    private const double AirMillivolts = 400;
    private const double BelowHydrogenMillivolts = 150;

    /// <summary>An ideal glass electrode gives 463 mV at pH 14 and 60 °C; with the worst offset still under 600 mV. Own reckoning.</summary>
    private const double GlassMillivolts = 700;

    /// <summary>Where the pH is not known the hydrogen line of the strongest lye counts, which accuses nobody wrongly.</summary>
    private const double StrongestPh = 14;

    private readonly ReferenceElectrode _reference =
        ReferenceElectrode.TryParse(vat.Orp?.Reference, out var named) ? named : ReferenceElectrode.SilverChloride3M;

    /// <summary>What speaks against a contact with the liquor, as a clause; null when nothing does.</summary>
    /// <param name="delivered">As delivered, in canonical unit or electrode mV.</param>
    /// <param name="value">Calibrated value; null when there is none.</param>
    /// <param name="liquorC">Liquor temperature, °C; null when not known.</param>
    public string? Fault(double delivered, double? value, double? liquorC) => probe.Quantity switch
    {
        Quantity.Ph when probe.Unit.IsElectrode && Math.Abs(delivered) > GlassMillivolts => $"gives {delivered:0;−0} mV, more than any glass electrode (±{GlassMillivolts:0} mV): not connected, broken, or its amplifier is at its rail",
        Quantity.Orp when value is { } millivolts => Platinum(millivolts, liquorC ?? vat.Temperature.HighC),
        _ => null,
    };

    private string? Platinum(double millivolts, double liquorC)
    {
        var air = RedoxPotential.Convert(AirMillivolts, ReferenceElectrode.SilverChloride3M, _reference, liquorC).Value;
        var hydrogen = RedoxPotential.FromShe(WaterStability.HydrogenLineMillivolts(StrongestPh, liquorC), _reference, liquorC).Value;
        if (millivolts > air)
        {
            return $"shows {millivolts:0;−0} mV, above {air:0;−0} mV: in air, or not connected";
        }

        return millivolts < hydrogen - BelowHydrogenMillivolts
            ? $"shows {millivolts:0;−0} mV, further below the hydrogen line ({hydrogen:0;−0} mV at pH {StrongestPh:0}) than water allows: not connected or broken"
            : null;
    }
}
