using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Dosing;

/// <summary>
/// Soda ash to bring a vat to a wanted pH at its own temperature, or the reason to add none. Refused: more alkali than the fibre stands, a pH that is reached
/// already or out of soda ash's reach (more than 10 g/L in all), and quantities that cannot be.
/// </summary>
public static class AlkaliDosing
{
    /// <summary>Answers; never throws on figures, whatever they are.</summary>
    public static DoseAnswer Answer(AlkaliDoseRequest request)
    {
        var fibre = request.Fibre ?? FibreLimit.Protein();
        if (Fault(request, fibre) is { } fault)
            return DoseAnswer.Refuse(fault);

        var estimate = AlkaliHistory.Of(request, out var contradiction);
        if (estimate is null)
            return DoseAnswer.Refuse(contradiction!);

        return estimate.Dose.Grams is { } grams
            ? DoseAnswer.Of(Advise(request, fibre, estimate, grams))
            : DoseAnswer.Refuse(AlkaliText.NotReachable(request, estimate.Dose));
    }

    /// <summary>Mean of a quarter of an hour of one electrode against another such mean, pH; a judgement on electrodes that need no new calibration between.</summary>
    public const double RepeatabilityPh = 0.025;

    /// <summary>
    /// What theory asks for in a liquor whose carbonate is known: the acid in it is what its pH says.
    /// </summary>
    /// <param name="volumeL">Liquor, L.</param>
    /// <param name="temperatureC">Its temperature, °C, at which both pH values count.</param>
    /// <param name="carbonateMmolPerLitre">All carbonate in it, mmol/L; less than tap water has counts as tap water.</param>
    /// <param name="ph">pH before.</param>
    /// <param name="targetPh">pH after.</param>
    public static SodaAshDose ByTheory(double volumeL, double temperatureC, double carbonateMmolPerLitre, double ph, double targetPh)
    {
        const double tapWaterMolal = 0.001;
        var carbonate = Math.Max(tapWaterMolal, carbonateMmolPerLitre / 1000);
        return SodaAshDosing.For(MeasuredBath.WithAcidFitted(ph, new(2 * carbonate, carbonate), temperatureC), volumeL, temperatureC, targetPh);
    }

    private static string? Fault(AlkaliDoseRequest request, FibreLimit fibre) => Possible.FirstFault(
        Possible.Volume(request.VolumeL),
        Possible.Temperature(request.TemperatureC),
        Possible.Ph(request.Ph),
        AlkaliText.TooLow(request.Ph),
        Possible.TargetPh(request.TargetPh),
        Possible.Alkalinity(request.AlkalinityMeqPerLitre ?? 0),
        Possible.SodaAsh(request.SodaAshSoFarGrams ?? 0, request.VolumeL),
        request.Ph >= request.TargetPh ? AlkaliText.AlreadyThere(request.Ph, request.TargetPh) : null,
        request.TargetPh > fibre.HighestPh ? AlkaliText.AboveFibre(fibre, request.TargetPh, request.Fibre is null) : null,
        AlkaliText.WithinError(request.Ph, request.TargetPh));

    private static DoseAdvice Advise(AlkaliDoseRequest request, FibreLimit fibre, AlkaliEstimate estimate, double grams)
    {
        List<string> assumptions = [AlkaliText.Understood(request, fibre)];
        if (request.Fibre is null)
            assumptions.Add(AlkaliText.FibreNotSaid);

        assumptions.AddRange(estimate.History);
        var high = Math.Max(grams, estimate.HighGrams ?? StopGrams(request.VolumeL, estimate));
        if (estimate.HighGrams is null)
            assumptions.Add(AlkaliText.StopLine(high));

        if (estimate.Dose.Extrapolated)
            assumptions.Add(AlkaliText.Salty);

        assumptions.AddRange([AlkaliText.ClosedBath, AlkaliText.Anhydrous, AlkaliText.SameTemperature, AlkaliText.Estimate]);
        return new(
            "soda ash",
            grams,
            Math.Min(grams, estimate.LowGrams),
            high,
            DoseAdvice.FirstPortion(grams, request.VolumeL, estimate.TheoryGrams is null ? null : request.Factor.FirstPortion(estimate.LowGrams)),
            DoseWait.ForAlkali,
            assumptions,
            [.. AlkaliCautions.For(fibre, request.Ph, request.TargetPh), .. VatCautions.At(request.TemperatureC)])
        {
            TheoryGrams = estimate.TheoryGrams,
            PastDoses = estimate.TheoryGrams is null ? 0 : request.Factor.Doses,
        };
    }

    /// <summary>What brings the liquor to the most soda ash that makes sense.</summary>
    private static double StopGrams(double volumeL, AlkaliEstimate estimate) =>
        Math.Max(0, SodaAshDose.MostGramsPerLitre - estimate.SodaAshBeforeGramsPerLitre) * volumeL;
}

/// <summary>The doses that the history of a liquor allows, before any caution.</summary>
/// <param name="Dose">The dose to work towards: the likely one, or the smaller where the history is open.</param>
/// <param name="LowGrams">The least, g.</param>
/// <param name="HighGrams">The most, g; null where the larger way does not reach the target.</param>
/// <param name="SodaAshBeforeGramsPerLitre">Soda ash that may be in the liquor already, g/L.</param>
/// <param name="History">What was taken for the history, a sentence each.</param>
internal sealed record AlkaliEstimate(
    SodaAshDose Dose, double LowGrams, double? HighGrams, double SodaAshBeforeGramsPerLitre, IReadOnlyList<string> History)
{
    /// <summary>What theory asks for where the vat's own answers count too, g; else null.</summary>
    public double? TheoryGrams { get; init; }
}
