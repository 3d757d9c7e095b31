namespace VatWatch.Science.Thermometry;

/// <summary>
/// A thermocouple type by the ITS-90 reference functions of NIST Monograph 175 (1993), for temperatures above 0 °C as in a vat.
/// Immutable; safe on any thread.
/// </summary>
public sealed class Thermocouple
{
    // No base-metal thermocouple is solid above this; a larger figure is a fault upstream.
    private const double BeyondAnyThermocoupleC = 2000;

    private readonly double[] reference;
    private readonly double[] inverse;
    private readonly (double Height, double Rate, double CentreC) bump;
    private readonly double highestC;
    private readonly double highestInverseMillivolts;

    private Thermocouple(
        string name,
        double highestC,
        double highestInverseMillivolts,
        (double Height, double Rate, double CentreC) bump,
        double[] reference,
        double[] inverse)
    {
        Name = name;
        this.highestC = highestC;
        this.highestInverseMillivolts = highestInverseMillivolts;
        this.bump = bump;
        this.reference = reference;
        this.inverse = inverse;
    }

    /// <summary>Type K, 0 to 1372 °C; its inverse function 0 to 20.644 mV (500 °C), within −0.05 and +0.04 °C.</summary>
    public static Thermocouple K { get; } = new(
        "K", 1372, 20.644, (0.1185976, -0.1183432e-3, 126.9686),
        [
            -0.176004136860e-1, 0.389212049750e-1, 0.185587700320e-4, -0.994575928740e-7, 0.318409457190e-9, -0.560728448890e-12,
            0.560750590590e-15, -0.320207200030e-18, 0.971511471520e-22, -0.121047212750e-25,
        ],
        [
            0, 25.08355, 7.860106e-2, -2.503131e-1, 8.315270e-2, -1.228034e-2, 9.804036e-4, -4.413030e-5, 1.057734e-6, -1.052755e-8,
        ]);

    /// <summary>Type T, 0 to 400 °C; its inverse function 0 to 20.872 mV (400 °C), within ±0.03 °C.</summary>
    public static Thermocouple T { get; } = new(
        "T", 400, 20.872, default,
        [
            0, 0.387481063640e-1, 0.332922278800e-4, 0.206182434040e-6, -0.218822568460e-8, 0.109968809280e-10, -0.308157587720e-13,
            0.454791352900e-16, -0.275129016730e-19,
        ],
        [0, 25.92800, -7.602961e-1, 4.637791e-2, -2.165394e-3, 6.048144e-5, -7.293422e-7]);

    /// <summary>Its letter.</summary>
    public string Name { get; }

    /// <summary>Voltage with the cold junction at 0 °C, mV; flagged below 0 °C and above the function's end.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist, or is above 2000 °C.</exception>
    public Estimate Millivolts(double temperatureC)
    {
        Wanted.Within(temperatureC, Wanted.AbsoluteZeroC, BeyondAnyThermocoupleC, "°C");
        var distanceC = temperatureC - bump.CentreC;
        var millivolts = Polynomial(reference, temperatureC) + bump.Height * Math.Exp(bump.Rate * distanceC * distanceC);
        return Estimate.InRange(millivolts, temperatureC, 0, highestC);
    }

    /// <summary>Temperature at a voltage with the cold junction at 0 °C; flagged outside the inverse function's range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The voltage is not a number, or so far off that no temperature up to 2000 °C gives it.</exception>
    public Estimate TemperatureC(double millivolts)
    {
        var temperatureC = Polynomial(inverse, Wanted.Finite(millivolts, "mV"));
        return temperatureC is > Wanted.AbsoluteZeroC and <= BeyondAnyThermocoupleC
            ? Estimate.InRange(temperatureC, millivolts, 0, highestInverseMillivolts)
            : throw Wanted.Refusal(millivolts, nameof(millivolts), $"a voltage of a type {Name} thermocouple");
    }

    /// <summary>
    /// Temperature of the hot junction: the cold junction's voltage is added to the measured one, and the sum turned into a
    /// temperature. (Adding the temperatures themselves would be wrong.)
    /// </summary>
    /// <param name="measuredMillivolts">Voltage between the cold ends, mV.</param>
    /// <param name="coldJunctionC">Temperature of the cold ends, °C.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value does not exist, as for <see cref="TemperatureC"/>.</exception>
    public Estimate CompensatedC(double measuredMillivolts, double coldJunctionC)
    {
        var cold = Millivolts(coldJunctionC);
        return TemperatureC(Wanted.Finite(measuredMillivolts, "mV") + cold.Value).OrExtrapolated(cold.Extrapolated);
    }

    private static double Polynomial(double[] coefficients, double x)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--)
            sum = sum * x + coefficients[i];

        return sum;
    }
}
