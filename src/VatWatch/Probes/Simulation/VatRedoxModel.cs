using VatWatch.Science.Electrodes;
using VatWatch.Science.Indigo;
using VatWatch.Science.Oxygen;

namespace VatWatch.Probes.Simulation;

/// <summary>
/// Reduction in a simulated vat, in moles: thiourea dioxide wakes with warmth and gives sulfoxylate; sulfoxylate reduces indigo, burns in
/// the oxygen that the surface lets in, and slowly falls apart; with none left, oxygen turns leuco-indigo blue again. Stoichiometry as in
/// <c>VatWatch.Science.Indigo</c>; the rates are engineering choices that give a night of ordinary length, no source. Yarn works on the liquor in which it
/// hangs, where the electrode is too, and that mixes with the rest within minutes: so ORP jumps at a dip and comes back. Not thread safe.
/// </summary>
internal sealed class VatRedoxModel
{
    private const double IndigoGramsPerMole = 262.27;
    private const double ReducerGramsPerMole = 108.12;
    private const double OxygenGramsPerMole = 32.0;

    /// <summary>At 20 °C; indigo chemistry reference, surface transfer.</summary>
    private const double OxygenGramsPerLitreOfAir = 0.279;

    /// <summary>Rates per hour at 45 °C; all follow <see cref="RelativeRate.ThioureaDioxideQ10"/>.</summary>
    private const double WakingPerHour = 1.6;
    private const double ReducingPerHour = 16;
    private const double DecayPerHour = 0.03;
    private const double RatesAtC = 45;

    /// <summary>Share of indigo still reduced from the last session.</summary>
    private const double LeucoAtStart = 0.7;

    /// <summary>Share of the alkali already eaten in earlier sessions, mol per kg.</summary>
    private const double AcidAtStartMolal = 0.0070;

    /// <summary>Share that counts as none, so that a potential stays finite.</summary>
    private const double Trace = 3e-4;

    /// <summary>Liquor between and about the fibres, how slowly air leaves them, and how long until that liquor has mixed with the rest: common practice, no source.</summary>
    private const double LitresAboutYarnPerKg = 2;
    private const double LargestShareAboutYarn = 0.25;
    private const double AiringHours = 5 / 60.0;
    private const double MixingHours = 4 / 60.0;

    /// <summary>So much sulfoxylate shares oxygen evenly with leuco-indigo; engineering choice, no source.</summary>
    private const double SharedMillimolar = 0.2;

    private readonly double _areaSquareMetres;
    private TransferVelocity _surface;
    private readonly double _indigoMoles;
    private readonly double _litres;
    private double _leucoMoles;
    private double _sleepingMoles;
    private double _sulfoxylateMoles;
    private double _yarnLitres;
    private double _yarnOxygenMoles;
    private double _spentAboutYarnMoles;
    private double _bluedAboutYarnMoles;

    public VatRedoxModel(SimulationScenario scenario, double litres, double areaSquareMetres)
    {
        _litres = litres;
        _yarnLitres = litres;
        _areaSquareMetres = areaSquareMetres;
        _surface = Surface(scenario.Lid);
        _indigoMoles = scenario.IndigoGramsPerLitre * litres / IndigoGramsPerMole;
        _leucoMoles = LeucoAtStart * _indigoMoles;
        _sleepingMoles = scenario.ReducerGramsPerLitre * litres / ReducerGramsPerMole;
        AcidMoles = AcidAtStartMolal * litres;
    }

    /// <summary>Alkali eaten so far, mol of OH⁻.</summary>
    public double AcidMoles { get; private set; }

    /// <summary>Lets time pass at a temperature.</summary>
    public void Advance(double temperatureC, double hours)
    {
        var pace = RelativeRate.FromQ10(RelativeRate.ThioureaDioxideQ10, temperatureC, RatesAtC);
        var waking = Part(_sleepingMoles, WakingPerHour * pace * hours);
        _sleepingMoles -= waking;
        _sulfoxylateMoles += waking;
        AcidMoles += waking;
        Mix(hours);
        Reduce(pace, hours);
        _sulfoxylateMoles -= Part(_sulfoxylateMoles, DecayPerHour * pace * hours);
        Burn(OxygenMolesPerHour(temperatureC) * hours);
    }

    /// <summary>Puts the lid on or takes it off.</summary>
    public void Cover(bool lid) => _surface = Surface(lid);

    /// <summary>Air that gets into the whole of the liquor; its oxygen acts at once.</summary>
    public void LetInAir(double litres) => Burn(OxygenMoles(litres));

    /// <summary>Yarn goes in with air between its fibres, whose oxygen acts first on the liquor about the yarn.</summary>
    public void Dip(double yarnKg, double airLitres)
    {
        _yarnLitres = Math.Clamp(LitresAboutYarnPerKg * yarnKg, LitresAboutYarnPerKg, LargestShareAboutYarn * _litres);
        _yarnOxygenMoles += OxygenMoles(airLitres);
    }

    /// <summary>A feed of thiourea dioxide.</summary>
    public void Sharpen(double grams) => _sleepingMoles += grams / ReducerGramsPerMole;

    /// <summary>Potential of a platinum electrode, mV against Ag/AgCl 3 M KCl at the same temperature.</summary>
    public double OrpMillivolts(double ph, double temperatureC)
    {
        var leuco = Math.Clamp(LeucoAboutYarn / (_indigoMoles * YarnShare), Trace, 1 - Trace);
        var couple = MidpointModel.Default.MidpointMillivolts(ph, temperatureC).Value
            + Nernst.SlopeMillivoltsPerPh(temperatureC) / 2 * Math.Log10((1 - leuco) / leuco);
        var freeMillimolar = 1000 * Math.Max(0, SulfoxylateAboutYarn) / _yarnLitres;
        return couple - ReducerPullMillivolts * Math.Log10(1 + freeMillimolar / ReducerHalfMillimolar);
    }

    private const double ReducerPullMillivolts = 22;
    private const double ReducerHalfMillimolar = 0.05;

    private void Mix(double hours)
    {
        var unmixed = Math.Exp(-hours / MixingHours);
        _spentAboutYarnMoles *= unmixed;
        _bluedAboutYarnMoles *= unmixed;
        var oxygen = Part(_yarnOxygenMoles, hours / AiringHours);
        _yarnOxygenMoles -= oxygen;
        var free = Math.Max(0, SulfoxylateAboutYarn);
        var spent = Math.Min(free, oxygen * free / (free + SharedMillimolar * _yarnLitres / 1000));
        _spentAboutYarnMoles += spent;
        _bluedAboutYarnMoles += Math.Min(2 * (oxygen - spent), Math.Max(0, LeucoAboutYarn));
        Burn(oxygen);
    }

    private double YarnShare => _yarnLitres / _litres;

    private double SulfoxylateAboutYarn => _sulfoxylateMoles * YarnShare - _spentAboutYarnMoles;

    private double LeucoAboutYarn => _leucoMoles * YarnShare - _bluedAboutYarnMoles;

    private static double OxygenMoles(double litresOfAir) => OxygenGramsPerLitreOfAir * litresOfAir / OxygenGramsPerMole;

    private void Reduce(double pace, double hours)
    {
        var blue = _indigoMoles - _leucoMoles;
        var reduced = Math.Min(_sulfoxylateMoles, Part(blue, ReducingPerHour * pace * hours * _sulfoxylateMoles / (_sulfoxylateMoles + 0.1 * _indigoMoles)));
        _sulfoxylateMoles -= reduced;
        _leucoMoles += reduced;
        AcidMoles += 2 * reduced;
    }

    private void Burn(double oxygenMoles)
    {
        var burnt = Math.Min(_sulfoxylateMoles, oxygenMoles);
        _sulfoxylateMoles -= burnt;
        AcidMoles += burnt;
        var blued = Math.Min(_leucoMoles, 2 * (oxygenMoles - burnt));
        _leucoMoles -= blued;
        AcidMoles -= blued;
    }

    private double OxygenMolesPerHour(double temperatureC)
    {
        var velocity = _surface.At(Math.Min(temperatureC, 95), RatesAtC);
        var metresPerHour = (velocity.LowCentimetresPerHour + velocity.HighCentimetresPerHour) / 200;
        var gramsPerCubicMetre = OxygenSaturation.MilligramsPerLitre(Math.Min(temperatureC, 95)).Value;
        return metresPerHour * _areaSquareMetres * gramsPerCubicMetre / OxygenGramsPerMole;
    }

    private static TransferVelocity Surface(bool lid) => TransferVelocity.Of(lid ? SurfaceState.CoveredStill : SurfaceState.OpenStill);

    private static double Part(double moles, double rateTimesTime) => moles * (1 - Math.Exp(-rateTimesTime));
}
