namespace VatWatch.Nights.Physics;

/// <summary>
/// pH of a soda ash bath, closed to the air: charge balance by bisection, activity coefficients of Davies. Constants: K1 Harned and Davis 1943, K2 Harned and Scholes
/// 1941, Kw Harned and Owen (all from memory; with these the standard carbonate buffer, 0.025 m of each salt, comes to 10.01 at 25 °C as certified).
/// </summary>
/// <param name="Carbon">All carbonate, mol/kg.</param>
internal sealed class CarbonateBath(double Carbon)
{
    /// <summary>Alkalinity, eq/kg: sodium of the soda less acid eaten.</summary>
    public double Alkalinity { get; set; }

    /// <summary>A bath of so much carbonate that has this pH at this warmth.</summary>
    public static CarbonateBath AtPh(double ph, double celsius, double carbon)
    {
        var bath = new CarbonateBath(carbon);
        var (low, high) = (0.0, 3 * carbon + 0.2);
        for (var i = 0; i < 40; i++)
        {
            bath.Alkalinity = (low + high) / 2;
            (low, high) = bath.Ph(celsius) < ph ? (bath.Alkalinity, high) : (low, bath.Alkalinity);
        }

        return bath;
    }

    /// <summary>pH as an ideal electrode reads it at that warmth.</summary>
    public double Ph(double celsius)
    {
        var constants = Constants(celsius);
        var (low, high) = (4.0, 13.5);
        var strength = Math.Abs(Alkalinity);
        for (var i = 0; i < 32; i++)
        {
            var middle = (low + high) / 2;
            var (charge, next) = Excess(middle, constants, strength);
            strength = next;
            (low, high) = charge > 0 ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }

    /// <summary>Alkalinity that is not accounted for at a pH, and the ionic strength there.</summary>
    private (double Charge, double Strength) Excess(double ph, (double K1, double K2, double Kw, double A) constants, double strength)
    {
        var activity = Math.Pow(10, -ph);
        var single = 1.0;
        for (var turn = 0; ; turn++)
        {
            var root = Math.Sqrt(strength);
            single = Math.Pow(10, -constants.A * (root / (1 + root) - 0.3 * strength));
            var twice = single * single * single * single;
            var hydroxide = constants.Kw / (activity * single);
            var proton = activity / single;
            var first = constants.K1 / (activity * single);
            var second = first * constants.K2 * single / (activity * twice);
            var share = Carbon / (1 + first + second);
            var (bicarbonate, carbonate) = (share * first, share * second);
            strength = 0.5 * (Math.Abs(Alkalinity) + bicarbonate + 4 * carbonate + hydroxide + proton);
            if (turn == 3)
                return (Alkalinity - bicarbonate - 2 * carbonate - hydroxide + proton, strength);
        }
    }

    private static (double K1, double K2, double Kw, double A) Constants(double celsius)
    {
        var t = celsius + 273.15;
        var dielectric = 87.74 - 0.40008 * celsius + 9.398e-4 * celsius * celsius;
        return (
            Math.Pow(10, -(3404.71 / t - 14.8435 + 0.032786 * t)),
            Math.Pow(10, -(2902.39 / t - 6.4980 + 0.02379 * t)),
            Math.Pow(10, -(4470.99 / t - 6.0875 + 0.01706 * t)),
            1.8246e6 * Math.Pow(dielectric * t, -1.5));
    }
}
