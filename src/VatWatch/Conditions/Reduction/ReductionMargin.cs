using VatWatch.Science.Electrodes;
using VatWatch.Science.Indigo;

namespace VatWatch.Conditions.Reduction;

/// <summary>
/// How far a vat lies from the potential at which half of its indigo is reduced, by pH and temperature (<see cref="MidpointModel"/>). An
/// index to follow, not an assay.
/// </summary>
/// <param name="Millivolts">ORP less midpoint, mV: below 0 mostly reduced.</param>
/// <param name="UncertaintyMillivolts">Either way, mV: that of the model's anchor.</param>
/// <param name="OrpMillivolts">The reading against Ag/AgCl 3 M KCl, mV.</param>
/// <param name="MidpointMillivolts">The midpoint at this pH and temperature, the same electrode, mV.</param>
/// <param name="ReducedShare">Share of the indigo that is reduced by the ideal relation, 0 to 1.</param>
/// <param name="Extrapolated">Whether pH, temperature or electrode lie outside what the sources vouch for.</param>
public sealed record ReductionMargin(
    double Millivolts, double UncertaintyMillivolts, double OrpMillivolts, double MidpointMillivolts, double ReducedShare, bool Extrapolated)
{
    /// <summary>The margin of a vat; null where it means nothing: fermentation vats work at the model's midpoint itself.</summary>
    public static ReductionMargin? Of(VatDefinition vat, ReferenceElectrode? reference, double? orpMillivolts, double? ph, double? liquorC)
    {
        if (vat.Reducer == Vats.ReducingAgent.Fermentation || reference is null || orpMillivolts is not { } orp || ph is not (>= 0 and <= 14) || liquorC is not (> 0 and < 100))
        {
            return null;
        }

        var converted = RedoxPotential.Convert(orp, reference, ReferenceElectrode.SilverChloride3M, liquorC.Value);
        var midpoint = MidpointModel.Default.MidpointMillivolts(ph.Value, liquorC.Value);
        var margin = converted.Value - midpoint.Value;
        return new ReductionMargin(
            margin,
            MidpointModel.UncertaintyMillivolts,
            converted.Value,
            midpoint.Value,
            LeucoShare.FromMargin(margin, liquorC.Value),
            converted.Extrapolated || midpoint.Extrapolated);
    }
}
