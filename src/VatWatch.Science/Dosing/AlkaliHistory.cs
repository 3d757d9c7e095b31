using VatWatch.Science.Carbonate;
using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Dosing;

/// <summary>
/// From what is known of a liquor's history to the doses it allows. pH alone does not fix a dose: the same pH 9 stands in hard water that takes a spoonful
/// and in a spent vat that takes a pound.
/// </summary>
internal static class AlkaliHistory
{
    /// <summary>A calibrated electrode in a warm vat is good to this, pH.</summary>
    public const double ElectrodePh = 0.1;

    // Water nobody tested, meq/L: soft to fairly hard tap water. An estimate.
    private const double SoftWaterMeqPerLitre = 1;
    private const double HardWaterMeqPerLitre = 4;

    // Soda ash a vat of unknown history may once have had, g/L; 1 to 5 is in use. An estimate.
    private const double UsualSodaAshGramsPerLitre = 2;

    // A free-hydroxide content this far above the stated alkalinity is a rounding of the two figures, eq/kg.
    private const double RoundingMolal = 1e-4;

    /// <summary>The doses; null with the reason where pH and history contradict each other.</summary>
    public static AlkaliEstimate? Of(AlkaliDoseRequest request, out string? refusal)
    {
        refusal = null;
        return (request.SodaAshSoFarGrams, request.AlkalinityMeqPerLitre) switch
        {
            ( > 0 and var logged, var water) => Logged(request, logged, water ?? 0),
            (_, { } alkalinity) => OfAlkalinity(request, alkalinity, out refusal),
            ({ }, null) => FreshWater(request),
            _ => Unknown(request),
        };
    }

    private static AlkaliEstimate? OfAlkalinity(AlkaliDoseRequest request, double meqPerLitre, out string? refusal)
    {
        refusal = null;
        if (!TryLiquor(request.Ph, meqPerLitre, request.TemperatureC, out var liquor))
        {
            refusal = AlkaliText.Contradiction(request.Ph, meqPerLitre, LeastMeqPerLitre(request.Ph, request.TemperatureC));
            return null;
        }

        var dose = For(request, liquor);
        var low = TryLiquor(request.Ph + ElectrodePh, meqPerLitre, request.TemperatureC, out var above) ? For(request, above) : dose;
        var high = TryLiquor(request.Ph - ElectrodePh, meqPerLitre, request.TemperatureC, out var below) ? For(request, below) : dose;
        return new(dose, low.Grams ?? dose.Grams ?? 0, high.Grams, 0, [AlkaliText.KnownAlkalinity(meqPerLitre), AlkaliText.ElectrodeRange]);
    }

    private static AlkaliEstimate Logged(AlkaliDoseRequest request, double grams, double waterMeqPerLitre)
    {
        var range = SodaAshDosing.ForLog(request.Ph, grams, request.VolumeL, request.TemperatureC, request.TargetPh, waterMeqPerLitre / 1000);
        string[] history = range.LogExplainsPh
            ? [AlkaliText.LoggedSodaAsh(grams), AlkaliText.BothWays]
            : [AlkaliText.LoggedSodaAsh(grams), AlkaliText.LogFallsShort];
        return new(Smaller(range), range.LowGrams ?? 0, range.HighGrams, grams / request.VolumeL, history);
    }

    private static AlkaliEstimate FreshWater(AlkaliDoseRequest request)
    {
        var soft = For(request, Water(request, SoftWaterMeqPerLitre));
        var hard = For(request, Water(request, HardWaterMeqPerLitre));
        return new(soft, soft.Grams ?? 0, hard.Grams, 0, [AlkaliText.UntestedWater(SoftWaterMeqPerLitre, HardWaterMeqPerLitre)]);
    }

    private static AlkaliEstimate Unknown(AlkaliDoseRequest request)
    {
        var soft = For(request, Water(request, SoftWaterMeqPerLitre));
        var used = SodaAshDosing.ForLog(
            request.Ph, UsualSodaAshGramsPerLitre * request.VolumeL, request.VolumeL, request.TemperatureC, request.TargetPh);
        double? high = used.HighGrams is { } most ? Math.Max(most, soft.Grams ?? 0) : null;
        return new(
            soft, soft.Grams ?? 0, high, UsualSodaAshGramsPerLitre, [AlkaliText.UnknownHistory(SoftWaterMeqPerLitre, UsualSodaAshGramsPerLitre)]);
    }

    private static SodaAshDose For(AlkaliDoseRequest request, BathComposition liquor) =>
        SodaAshDosing.For(liquor, request.VolumeL, request.TemperatureC, request.TargetPh);

    private static SodaAshDose Smaller(SodaAshDoseRange range) =>
        range.ByCarbonDioxide is { Grams: { } dioxide } other && (range.ByAcid.Grams is not { } acid || dioxide < acid) ? other : range.ByAcid;

    private static BathComposition Water(AlkaliDoseRequest request, double meqPerLitre) =>
        TryLiquor(request.Ph, meqPerLitre, request.TemperatureC, out var liquor) ? liquor : Unbuffered(request.Ph, request.TemperatureC);

    /// <summary>A liquor of this pH and alkalinity (counted per kg of water), the rest being carbonate.</summary>
    private static bool TryLiquor(double ph, double meqPerLitre, double temperatureC, out BathComposition liquor)
    {
        var alkalinity = meqPerLitre / 1000;
        var fits = MeasuredBath.TryTotalCarbonate(ph, alkalinity, temperatureC, out var carbonate);
        liquor = fits ? new(alkalinity, carbonate.Value) : Unbuffered(ph, temperatureC);
        return fits || Math.Abs(LeastMeqPerLitre(ph, temperatureC) / 1000 - alkalinity) <= RoundingMolal;
    }

    /// <summary>Water of this pH without any carbonate: what it has in free alkali or acid and nothing behind it.</summary>
    private static BathComposition Unbuffered(double ph, double temperatureC) => MeasuredBath.WithAcidFitted(ph, default, temperatureC);

    /// <summary>The least alkalinity that can stand at a pH, meq/L: free hydroxide alone; negative below neutral.</summary>
    private static double LeastMeqPerLitre(double ph, double temperatureC) => 1000 * Unbuffered(ph, temperatureC).AlkalinityMolal;
}
