namespace VatWatch.Science.Carbonate;

/// <summary>All constants at one temperature, and the species of a bath at an assumed pH. Made once per solution so that bisection stays cheap.</summary>
internal sealed class EquilibriumAtTemperature
{
    // Eight rounds are enough for a dye bath; the limit only matters for trial values of pH far from the answer.
    private const int MostRounds = 40;
    private const double IonicStrengthTolerance = 1e-12;

    private readonly double temperatureC;
    private readonly double k1;
    private readonly double k2;
    private readonly double kWater;
    private readonly double kCalciumHydroxide;
    private readonly DebyeHuckel law;

    public EquilibriumAtTemperature(double temperatureC)
    {
        this.temperatureC = temperatureC;
        k1 = Math.Pow(10, CarbonateConstants.Log10K1(temperatureC));
        k2 = Math.Pow(10, CarbonateConstants.Log10K2(temperatureC));
        kWater = Math.Pow(10, CarbonateConstants.Log10KWater(temperatureC));
        kCalciumHydroxide = Math.Pow(10, CarbonateConstants.Log10KCalciumHydroxide(temperatureC));
        law = DebyeHuckel.At(temperatureC);
    }

    /// <summary>Species of the given bath at a pH it need not have: the charges do not have to balance.</summary>
    public BathSpeciation At(double ph, BathComposition bath) =>
        Iterate(ph, bath.TotalCarbonateMolal, bath.CalciumMolal, _ => bath.SodiumMolal + Math.Abs(bath.StrongAcidMolal));

    /// <summary>Species at a pH where plain sodium balances the charges.</summary>
    public BathSpeciation BalancedBySodium(double ph, double totalCarbonateMolal) =>
        Iterate(ph, totalCarbonateMolal, 0, species => Math.Abs(species.NetCharge));

    /// <summary>Species at a pH where net strong acid, or unlogged alkali, balances the charges.</summary>
    public BathSpeciation BalancedByAcid(double ph, double sodiumMolal, double totalCarbonateMolal) =>
        Iterate(ph, totalCarbonateMolal, 0, species => sodiumMolal + Math.Abs(sodiumMolal + species.NetCharge));

    private BathSpeciation Iterate(double ph, double totalCarbonate, double calcium, Func<BathSpeciation, double> inertIons)
    {
        var species = Species(ph, totalCarbonate, calcium, Math.Max(1e-8, totalCarbonate + 2 * calcium));
        for (var round = 0; round < MostRounds; round++)
        {
            var next = IonicStrength(species, inertIons(species));
            var settled = Math.Abs(next - species.IonicStrengthMolal) <= IonicStrengthTolerance;
            species = Species(ph, totalCarbonate, calcium, next);
            if (settled)
                break;
        }

        return species;
    }

    private static double IonicStrength(BathSpeciation species, double inertIons) =>
        0.5 * (inertIons + species.HydrogenMolal + species.HydroxideMolal + species.BicarbonateMolal + 4 * species.CarbonateMolal
            + 4 * species.CalciumMolal + species.CalciumHydroxideMolal);

    private BathSpeciation Species(double ph, double totalCarbonate, double calcium, double ionicStrength)
    {
        var hydrogenActivity = Math.Pow(10, -ph);
        var gammaHydroxide = law.ActivityCoefficient(Ion.Hydroxide, ionicStrength);
        var gammaBicarbonate = law.ActivityCoefficient(Ion.Bicarbonate, ionicStrength);
        var hydroxide = kWater / (hydrogenActivity * gammaHydroxide);

        // The activity coefficient of CO2(aq), 10^(0.1 I), is left out: it moves pH by 0.0005 at pH 8 and less above.
        var bicarbonatePerCarbonate = law.ActivityCoefficient(Ion.Carbonate, ionicStrength) * hydrogenActivity / (k2 * gammaBicarbonate);
        var dioxidePerCarbonate = bicarbonatePerCarbonate * gammaBicarbonate * hydrogenActivity / k1;
        var carbonate = totalCarbonate / (1 + bicarbonatePerCarbonate + dioxidePerCarbonate);

        var pairedPerFree = calcium == 0
            ? 0
            : kCalciumHydroxide * law.ActivityCoefficient(Ion.Calcium, ionicStrength) * gammaHydroxide * hydroxide
                / law.ActivityCoefficient(Ion.CalciumHydroxide, ionicStrength);
        var freeCalcium = calcium / (1 + pairedPerFree);

        return new(
            temperatureC,
            ph,
            ionicStrength,
            hydrogenActivity / law.ActivityCoefficient(Ion.Hydrogen, ionicStrength),
            hydroxide,
            carbonate * dioxidePerCarbonate,
            carbonate * bicarbonatePerCarbonate,
            carbonate,
            freeCalcium,
            calcium - freeCalcium,
            temperatureC > CarbonateConstants.CheckedToC || ionicStrength > DebyeHuckel.CheckedToIonicStrength);
    }
}
