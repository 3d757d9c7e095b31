namespace VatWatch.Science.Carbonate;

/// <summary>The extended Debye-Hückel law at one temperature: its two prefactors, and activity coefficients on the molal scale.</summary>
public readonly record struct DebyeHuckel
{
    /// <summary>Ionic strength (mol/kg) up to which the fit to published soda ash solutions was checked.</summary>
    public const double CheckedToIonicStrength = 3;

    private DebyeHuckel(double a, double b)
    {
        A = a;
        BPerAngstrom = b;
    }

    /// <summary>Prefactor of the numerator, (kg/mol)^½.</summary>
    public double A { get; }

    /// <summary>Prefactor of the ion size, (kg/mol)^½ per ångström.</summary>
    public double BPerAngstrom { get; }

    /// <summary>Static dielectric constant of water. Malmberg and Maryott, J. Res. NBS 56 (1956) 1; 0 to 100 °C.</summary>
    public static double DielectricConstant(double temperatureC)
    {
        var t = Wanted.Within(temperatureC, 0, 100, "°C");
        return 87.740 + t * (-0.40008 + t * (9.398e-4 - t * 1.410e-6));
    }

    /// <summary>The law for water at <paramref name="temperatureC"/>, 0 to 100 °C. Prefactors from memory, density after Kell.</summary>
    public static DebyeHuckel At(double temperatureC)
    {
        var rootDensity = Math.Sqrt(WaterDensity.KgPerM3(temperatureC) / 1000);
        var product = DielectricConstant(temperatureC) * CarbonateConstants.Kelvin(temperatureC);
        return new(1.82483e6 * rootDensity * Math.Pow(product, -1.5), 50.2916 * rootDensity / Math.Sqrt(product));
    }

    /// <summary>Activity coefficient of <paramref name="ion"/> at an ionic strength in mol/kg.</summary>
    public double ActivityCoefficient(Ion ion, double ionicStrengthMolal)
    {
        var root = Math.Sqrt(Wanted.NotNegative(ionicStrengthMolal, "mol/kg"));
        return Math.Pow(
            10,
            -A * ion.Charge * ion.Charge * root / (1 + BPerAngstrom * ion.SizeAngstrom * root) + ion.SlopeKgPerMol * ionicStrengthMolal);
    }
}
