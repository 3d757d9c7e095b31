using VatWatch.Science.Electrodes.Ph;

namespace VatWatch.Science.Electrodes;

/// <summary>A solution of known redox potential, to check an ORP probe in. Immutable; safe on any thread.</summary>
public sealed class CheckSolution
{
    private readonly Func<double, Estimate> millivoltsVsShe;

    private CheckSolution(string name, Func<double, Estimate> millivoltsVsShe)
    {
        Name = name;
        this.millivoltsVsShe = millivoltsVsShe;
    }

    /// <summary>
    /// ZoBell's solution by Standard Methods 2580 B (1997): 428 − 2.2 (t − 25) mV, which rounds to each row of its table, 1 to 30 °C.
    /// </summary>
    public static CheckSolution ZoBell { get; } = new("ZoBell (Standard Methods 2580)",
        t => Estimate.InRange(428 - 2.2 * (t - 25), t, 1, 30));

    /// <summary>
    /// ZoBell's solution by Nordstrom 1977, as USGS National Field Manual A6.5 uses it, 8 to 85 °C; equation from memory. 2 mV above
    /// the other set at 25 °C and 6 mV at 10 °C.
    /// </summary>
    public static CheckSolution ZoBellNordstrom { get; } = new("ZoBell (Nordstrom 1977)",
        t => Estimate.InRange(430.28 - 2.5157 * (t - 25) - 3.7979e-3 * (t - 25) * (t - 25), t, 8, 85));

    /// <summary>
    /// Light's solution, +675 mV at 25 °C (ASTM D1498; Light 1972). No temperature coefficient was found: the same value is given at
    /// every temperature and flagged beyond 24 to 26 °C.
    /// </summary>
    public static CheckSolution Light { get; } = new("Light", t => Estimate.InRange(675, t, 24, 26));

    /// <summary>Quinhydrone in the phthalate buffer, pH 4.</summary>
    public static CheckSolution QuinhydronePh4 { get; } = Quinhydrone("quinhydrone pH 4", PhBuffers.Phthalate);

    /// <summary>Quinhydrone in the phosphate buffer of pH 7.000.</summary>
    public static CheckSolution QuinhydronePh7 { get; } = Quinhydrone("quinhydrone pH 7", PhBuffers.Phosphate7000);

    /// <summary>Quinhydrone in the phosphate buffer of pH 6.865.</summary>
    public static CheckSolution QuinhydronePh6865 { get; } = Quinhydrone("quinhydrone pH 6.865", PhBuffers.Phosphate);

    /// <summary>Every check solution known here.</summary>
    public static IReadOnlyList<CheckSolution> All { get; } =
        [ZoBell, ZoBellNordstrom, Light, QuinhydronePh4, QuinhydronePh7, QuinhydronePh6865];

    /// <summary>The name it is written and shown by.</summary>
    public string Name { get; }

    /// <summary>Its potential against the standard hydrogen electrode, mV.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public Estimate MillivoltsVsShe(double temperatureC) => millivoltsVsShe(Wanted.TemperatureC(temperatureC));

    /// <summary>What a faultless probe with that reference electrode shows in it, mV.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist.</exception>
    public Estimate MillivoltsOn(ReferenceElectrode reference, double temperatureC)
    {
        var she = MillivoltsVsShe(temperatureC);
        return RedoxPotential.FromShe(she.Value, reference, temperatureC).OrExtrapolated(she.Extrapolated);
    }

    public override string ToString() => Name;

    // E° 699.7 mV and -0.74 mV/K: constants from memory; with them the pH 4 and pH 7 rows of ASTM D1498 agree within 1 mV.
    private static CheckSolution Quinhydrone(string name, PhBuffer buffer) => new(name, t =>
    {
        var ph = buffer.PhAt(t);
        return new Estimate(699.7 - 0.74 * (t - 25) - Nernst.SlopeMillivoltsPerPh(t) * ph.Value, ph.Extrapolated);
    });
}
