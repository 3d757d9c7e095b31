using VatWatch.Science.Carbonate.SodaAsh;

namespace VatWatch.Science.Dosing;

/// <summary>The sentences of a soda ash dose: what it rests on and why one is refused.</summary>
internal static class AlkaliText
{
    public const string FibreNotSaid =
        "The fibre was not said, so protein fibre (wool, silk, hair) is taken, which stands the least alkali; say cellulose if only cotton or linen is dyed.";

    public const string ElectrodeRange = "The range is that of a pH reading good to ±0.1; a third of the dose is given first for that reason.";

    public const string Salty = "Extrapolated: the liquor is saltier than the solutions the tables were checked against.";

    // What a calibrated electrode is good for in a vat, pH: common practice, no source.
    private const double ElectrodeError = 0.1;

    // Sulfite that spent reducing agent leaves gives off sulfur dioxide near this pH.
    private const double SulfurDioxidePh = 7;

    public const string BothWays =
        "Why the pH fell is not known: the small figure holds if reducing agent and dye set acid free, the large one if the liquor took carbon dioxide "
        + "from the air. They can differ twofold; work towards the small one.";

    public const string LogFallsShort =
        "The pH is higher than the logged soda ash can give: other alkali is in the liquor, or the log or the electrode is wrong. Check both before dosing.";

    public const string ClosedBath =
        "Clean water is taken: no hardness, no salts, no air drawn in. Each 100 mg/L of hardness (as CaCO3) takes about 0.11 g of soda ash per litre besides.";

    public const string Anhydrous = "Soda ash is anhydrous sodium carbonate; of washing soda crystals (decahydrate) it takes 2.7 times the weight.";

    public const string SameTemperature =
        "Both pH values are those of the liquor at its present temperature, by an electrode calibrated lately. Ask again once it has moved by more than "
        + "2 °C (3.6 °F): warming lowers the pH by itself.";

    public const string Estimate = "The figures are estimates: give the first portion, stir gently, wait, read the pH again, and ask again.";

    /// <summary>What was asked, said back.</summary>
    public static string Understood(AlkaliDoseRequest request, FibreLimit fibre) =>
        $"Asked for: {InWords.Volume(request.VolumeL)} of liquor at {InWords.Temperature(request.TemperatureC)}, from {InWords.Ph(request.Ph)} to {InWords.Ph(request.TargetPh)}, for {fibre.Name}.";

    public static string? TooLow(double ph) => ph >= SulfurDioxidePh
        ? null
        : $"the pH now is {InWords.Plain(ph)}, where spent reducing agent gives off sulfur dioxide, or the electrode is wrong: air the room, keep your face away, and try the electrode "
            + $"in a buffer; wanted a pH of {SulfurDioxidePh} or above.";

    public static string? WithinError(double ph, double target) => target - ph > ElectrodeError + 1e-9
        ? null
        : $"{InWords.Ph(ph)} and {InWords.Ph(target)} are within the electrode's error of ±{ElectrodeError} of each other, so nothing is known to be missing: add no alkali; "
            + "wanted a difference that the electrode can tell.";

    public static string KnownAlkalinity(double meqPerLitre) =>
        $"Alkalinity of the liquor {InWords.Plain(meqPerLitre)} meq/L, all of it carbonate that goes with the pH now.";

    public static string LoggedSodaAsh(double grams) => $"{InWords.Mass(grams)} of soda ash is in the liquor, none of it carried out or poured away.";

    public static string UntestedWater(double softMeq, double hardMeq) =>
        $"The liquor is water that has had no soda ash; its alkalinity is not known and is taken from {softMeq} to {hardMeq} meq/L, soft to hard tap water.";

    public static string UnknownHistory(double softMeq, double gramsPerLitre) =>
        $"The history of the liquor is not known, and pH alone does not fix the dose: the small figure is for soft tap water ({softMeq} meq/L), the large one "
        + $"for a spent vat that once had {InWords.Strength(gramsPerLitre)} of soda ash. Work towards the small one; a log of what was added narrows the range.";

    public static string StopLine(double grams) =>
        $"By the larger way the wanted pH is out of reach of soda ash: add no more than {InWords.Mass(grams)}, portion by portion; then refresh the liquor instead.";

    public static string Contradiction(double ph, double meqPerLitre, double leastMeqPerLitre) => meqPerLitre < leastMeqPerLitre
        ? $"{InWords.Ph(ph)} does not go with an alkalinity of {InWords.Plain(meqPerLitre)} meq/L; wanted at least {InWords.Plain(leastMeqPerLitre)} meq/L "
            + "for that pH, or a lower reading. Check the electrode and the test of the water."
        : $"{InWords.Ph(ph)} does not go with an alkalinity of {InWords.Plain(meqPerLitre)} meq/L; wanted a pH which carbonate of that alkalinity can have. "
            + "Check the electrode and the test of the water.";

    public static string AlreadyThere(double ph, double target) =>
        $"the liquor is at {InWords.Ph(ph)} and {InWords.Ph(target)} is wanted: it is there or above, so add no alkali. Never bring it down with acid; "
        + "the reducing agent lowers it in use.";

    public static string AboveFibre(FibreLimit fibre, double target, bool assumed) =>
        $"{InWords.Ph(target)} is above {InWords.Ph(fibre.HighestPh)}, the limit for {fibre.Name}{(assumed ? ", which is taken because no fibre was said" : "")}; "
        + (fibre.IsProtein
            ? "alkali damages such fibre, the more the hotter and the longer. Wanted a lower pH, or cellulose named as the fibre."
            : "more alkali gains no colour. Wanted a lower pH.");

    public static string NotReachable(AlkaliDoseRequest request, SodaAshDose dose)
    {
        var takes = dose is { FormalGrams: { } grams, GramsPerLitreAfter: { } strength }
            ? $"it would take {InWords.Mass(grams)} and leave {InWords.Strength(strength)} in the liquor"
            : "no amount gets there";
        return $"{InWords.Ph(request.TargetPh)} at {InWords.Temperature(request.TemperatureC)} is out of reach of soda ash: {takes}, where "
            + $"{InWords.Strength(SodaAshDose.MostGramsPerLitre)} is the most that makes sense. Refresh part of the liquor or accept a lower pH.";
    }
}
