namespace VatWatch.Science.Carbonate.SodaAsh;

/// <summary>
/// What a soda ash bath that has been worked would read at another temperature, where nobody knows what is in it: 2 g/L of soda ash, of which acid has eaten
/// as much as the pH says. It loses 0.006 to 0.012 pH/K from pH 9.5 to 10.3, half of what fresh soda ash loses; lye and lime lose 0.03. Where the bath is
/// logged, <see cref="PhAtTemperature"/> solves it.
/// </summary>
public static class UsedBath
{
    /// <summary>The common case: 2 g/L, mol/kg.</summary>
    private const double CarbonateMolal = 0.0189;

    private const double LowestPh = 7;
    private const double HighestPh = 13;
    private const double Step = 0.25;
    private const double WarmC = 45;
    private const double CoolC = 25;

    /// <summary>Slopes by pH at <see cref="WarmC"/>, solved once.</summary>
    private static readonly double[] Slopes = SolveAll();

    /// <summary>pH at <paramref name="toC"/> of a bath that reads <paramref name="ph"/> at <paramref name="fromC"/>, °C.</summary>
    public static double PhAt(double ph, double fromC, double toC)
    {
        // The slopes go by the pH of the warm bath.
        var warmPh = ph;
        for (var i = 0; i < 4; i++)
        {
            warmPh = ph + SlopePerK(warmPh) * (WarmC - fromC);
        }

        return ph + SlopePerK(warmPh) * (toC - fromC);
    }

    /// <summary>Change of pH by a kelvin with no change of composition, of a bath that has this pH at 45 °C; outside pH 7 to 13 that at the end.</summary>
    public static double SlopePerK(double warmPh)
    {
        var place = (Math.Clamp(warmPh, LowestPh, HighestPh) - LowestPh) / Step;
        var below = Math.Min((int)place, Slopes.Length - 2);
        return Slopes[below] + (place - below) * (Slopes[below + 1] - Slopes[below]);
    }

    private static double[] SolveAll()
    {
        var slopes = new double[1 + (int)((HighestPh - LowestPh) / Step)];
        for (var i = 0; i < slopes.Length; i++)
        {
            slopes[i] = Solve(LowestPh + i * Step);
        }

        return slopes;
    }

    private static double Solve(double warmPh) =>
        (warmPh - PhAtTemperature.Of(warmPh, WarmC, new BathComposition(2 * CarbonateMolal, CarbonateMolal), CoolC).Value) / (WarmC - CoolC);
}
