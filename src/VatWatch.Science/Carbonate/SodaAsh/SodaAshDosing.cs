namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>
/// Doses of soda ash. pH alone does not fix the dose, the history of the bath does: ask for the fibre first, read at the bath's own temperature, and
/// add in portions.
/// </summary>
public static class SodaAshDosing
{
    /// <summary>Dose for a bath of known composition; the volume is that of the bath at its temperature.</summary>
    /// <param name="bath">Composition before the dose, without calcium.</param>
    /// <param name="temperatureC">Temperature of the bath and of the wanted pH, 0 to 100 °C.</param>
    /// <param name="targetPh">Wanted pH, 7 to 13.</param>
    public static SodaAshDose For(BathComposition bath, double volumeL, double temperatureC, double targetPh)
    {
        Wanted.Within(targetPh, 7, 13, "");
        var equilibrium = new EquilibriumAtTemperature(temperatureC);
        var kg = WaterMass.Kg(volumeL, temperatureC);
        var now = BathEquilibrium.Solve(bath, equilibrium);
        if (now.Ph >= targetPh)
            return new(SodaAshOutcome.AlreadyThere, 0, volumeL, GramsPerLitre(0), now.Extrapolated);

        var most = SodaAshDose.SearchGramsPerLitre * volumeL / (AlkaliProduct.SodaAsh.MolarMassGramsPerMol * kg);
        if (After(most).Ph < targetPh)
            return new(SodaAshOutcome.NotReachable, null, volumeL, null, true);

        var molal = Bisection.Turn(0, most, trial => After(trial).Ph < targetPh);
        var outcome = GramsPerLitre(molal) > SodaAshDose.MostGramsPerLitre ? SodaAshOutcome.NotReachable : SodaAshOutcome.Reachable;
        return new(
            outcome, molal * AlkaliProduct.SodaAsh.MolarMassGramsPerMol * kg, volumeL, GramsPerLitre(molal), After(molal).Extrapolated);

        BathSpeciation After(double dose) => BathEquilibrium.Solve(bath.AddMolal(AlkaliProduct.SodaAsh, dose), equilibrium);

        double GramsPerLitre(double dose) =>
            (0.5 * bath.SodiumMolal + dose) * AlkaliProduct.SodaAsh.MolarMassGramsPerMol * kg / volumeL;
    }

    /// <summary>
    /// Dose for a bath of measured pH and known alkalinity (eq per kg of water), all the rest being carbonate.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The pH does not go with that alkalinity at any amount of carbonate.</exception>
    public static SodaAshDose ForAlkalinity(
        double measuredPh, double alkalinityMolal, double volumeL, double temperatureC, double targetPh) =>
        MeasuredBath.TryTotalCarbonate(measuredPh, alkalinityMolal, temperatureC, out var carbonate)
            ? For(new(alkalinityMolal, carbonate.Value), volumeL, temperatureC, targetPh)
            : throw new ArgumentOutOfRangeException(
                nameof(measuredPh),
                measuredPh,
                $"measuredPh is {measuredPh} at an alkalinity of {1000 * alkalinityMolal} meq/kg; wanted a pH which carbonate of that alkalinity can have.");

    /// <summary>
    /// Doses for a bath which has had <paramref name="sodaAshSoFarGrams"/> of soda ash and has since fallen to <paramref name="measuredPh"/>, by either way
    /// it can have fallen. The two can differ by a factor of two; start with the smaller. What alkalinity the water itself had
    /// (<paramref name="waterAlkalinityMolal"/>, eq/kg) counts as bicarbonate.
    /// </summary>
    public static SodaAshDoseRange ForLog(
        double measuredPh, double sodaAshSoFarGrams, double volumeL, double temperatureC, double targetPh, double waterAlkalinityMolal = 0)
    {
        var fresh = new BathComposition(waterAlkalinityMolal, waterAlkalinityMolal).Add(AlkaliProduct.SodaAsh, sodaAshSoFarGrams, volumeL, temperatureC);
        var fitted = MeasuredBath.WithAcidFitted(measuredPh, fresh, temperatureC);
        var byAcid = For(fitted, volumeL, temperatureC, targetPh);

        // A bath above the pH of its logged soda ash has had other alkali: carbon dioxide cannot explain it, nor can acid.
        var explained = fitted.StrongAcidMolal >= 0;
        SodaAshDose? byDioxide = explained && MeasuredBath.TryTotalCarbonate(measuredPh, fresh.SodiumMolal, temperatureC, out var carbonate)
            ? For(new(fresh.SodiumMolal, carbonate.Value), volumeL, temperatureC, targetPh)
            : null;
        return new(byAcid, byDioxide, fitted.StrongAcidMolal, explained);
    }
}
