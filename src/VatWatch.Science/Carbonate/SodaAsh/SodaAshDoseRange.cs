namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>The two doses between which the truth lies when it is not known why a bath fell.</summary>
/// <param name="ByAcid">If reducing agent and dye set acid free: carbonate kept, alkalinity lost. Mostly the smaller.</param>
/// <param name="ByCarbonDioxide">If it took carbon dioxide from the air: alkalinity kept, carbonate gained. Null where the log does not allow it.</param>
/// <param name="AcidMolal">Acid eaten by the first way, eq/kg; negative if the bath holds alkali that was not logged.</param>
/// <param name="LogExplainsPh">False if the bath reads above what its logged soda ash can give.</param>
public readonly record struct SodaAshDoseRange(SodaAshDose ByAcid, SodaAshDose? ByCarbonDioxide, double AcidMolal, bool LogExplainsPh)
{
    /// <summary>The smaller dose, to start with; null if neither way reaches the wanted pH.</summary>
    public double? LowGrams => Smaller is { } dose ? dose.Grams : null;

    /// <summary>The larger dose; null if one of the ways does not reach the wanted pH.</summary>
    public double? HighGrams => ByCarbonDioxide is not { } other
        ? ByAcid.Grams
        : ByAcid.Grams is { } first && other.Grams is { } second ? Math.Max(first, second) : null;

    public double? FirstPortionGrams => Smaller?.FirstPortionGrams;

    private SodaAshDose? Smaller => (ByAcid.Grams, ByCarbonDioxide?.Grams) switch
    {
        (null, null) => null,
        (null, _) => ByCarbonDioxide,
        (_, null) => ByAcid,
        var (acid, dioxide) => acid <= dioxide ? ByAcid : ByCarbonDioxide,
    };
}
