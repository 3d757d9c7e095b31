using VatWatch.Science.Electrodes;
using VatWatch.Science.Indigo;

namespace VatWatch.Vats;

/// <summary>Potentials that tell a working vat from a failing one, mV against the named reference electrode.</summary>
/// <param name="WeakMillivolts">Above this the reduction is weak.</param>
/// <param name="OxidisedMillivolts">Above this the vat is oxidised.</param>
/// <param name="Reference">Reference electrode of all potentials of this vat, for example "Ag/AgCl 3 M KCl".</param>
/// <param name="RisingMillivoltsPerHour">A faster rise than this is a failing vat.</param>
public sealed record OrpLimits(double WeakMillivolts, double OxidisedMillivolts, string Reference, double RisingMillivoltsPerHour)
{
    /// <summary>A sound vat rises more slowly. Engineering judgement.</summary>
    public const double UsualRisingMillivoltsPerHour = 20;

    /// <summary>Whether nobody set them, nor the reference electrode: an ORP probe is not left without its alarms.</summary>
    public bool AreAssumed { get; init; }

    /// <summary>The marks of a vat whose ORP is read though none are set, against Ag/AgCl 3 M KCl.</summary>
    public static OrpLimits Usual(ReducingAgent reducer, PhBand? ph, TemperatureBand temperature)
    {
        const string Reference = "Ag/AgCl 3 M KCl";
        var (weak, oxidised) = UsualMarks(reducer, ph, temperature, Reference);
        return new(weak, oxidised, Reference, UsualRisingMillivoltsPerHour) { AreAssumed = true };
    }

    /// <summary>
    /// The marks that go with a vat's bath where none are set: so far from the midpoint of indigo in the middle of its pH and temperature bands as
    /// <see cref="ReductionThresholds.ChemicalMargin"/> says, ± 40 mV; without a pH band, and for a fermentation vat, the fixed ones. An electrode that is not
    /// known is taken for Ag/AgCl 3 M KCl.
    /// </summary>
    public static (double WeakMillivolts, double OxidisedMillivolts) UsualMarks(ReducingAgent reducer, PhBand? ph, TemperatureBand temperature, string reference)
    {
        var middleC = Math.Clamp((temperature.LowC + temperature.HighC) / 2, 1, 99);
        var electrode = ReferenceElectrode.TryParse(reference, out var known) ? known : ReferenceElectrode.SilverChloride3M;
        double Against(double millivolts) => Math.Round(RedoxPotential.Convert(millivolts, ReferenceElectrode.SilverChloride3M, electrode, middleC).Value);

        var isFermentation = reducer == ReducingAgent.Fermentation;
        if (isFermentation || ph is null)
        {
            var set = isFermentation ? ReductionThresholds.Fermentation : ReductionThresholds.Chemical;
            return (Against(set.WorkingUpToMillivolts), Against(set.TurningUpToMillivolts));
        }

        var midpoint = MidpointModel.Default.MidpointMillivolts((ph.Low + ph.High) / 2, middleC).Value;
        var margin = ReductionThresholds.ChemicalMargin;
        return (Against(midpoint + margin.WorkingUpToMillivolts), Against(midpoint + margin.TurningUpToMillivolts));
    }
}
