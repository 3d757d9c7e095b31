namespace VatWatch.Testing.Registers;

/// <summary>A thermocouple type by the ITS-90 reference functions of NIST Monograph 175 (1993), above 0 °C; what a converter chip works with.</summary>
public sealed class Thermocouple
{
    private readonly double[] _reference;
    private readonly double[] _inverse;
    private readonly (double Height, double Rate, double CentreC) _bump;

    private Thermocouple((double Height, double Rate, double CentreC) bump, double[] reference, double[] inverse) =>
        (_bump, _reference, _inverse) = (bump, reference, inverse);

    /// <summary>Type K, 0 to 1372 °C; its inverse function 0 to 20.644 mV (500 °C), within −0.05 and +0.04 °C.</summary>
    public static Thermocouple K { get; } = new(
        (0.1185976, -0.1183432e-3, 126.9686),
        [
            -0.176004136860e-1, 0.389212049750e-1, 0.185587700320e-4, -0.994575928740e-7, 0.318409457190e-9, -0.560728448890e-12,
            0.560750590590e-15, -0.320207200030e-18, 0.971511471520e-22, -0.121047212750e-25,
        ],
        [
            0, 25.08355, 7.860106e-2, -2.503131e-1, 8.315270e-2, -1.228034e-2, 9.804036e-4, -4.413030e-5, 1.057734e-6, -1.052755e-8,
        ]);

    /// <summary>Type T, 0 to 400 °C; its inverse function 0 to 20.872 mV (400 °C), within ±0.03 °C.</summary>
    public static Thermocouple T { get; } = new(
        default,
        [
            0, 0.387481063640e-1, 0.332922278800e-4, 0.206182434040e-6, -0.218822568460e-8, 0.109968809280e-10, -0.308157587720e-13,
            0.454791352900e-16, -0.275129016730e-19,
        ],
        [0, 25.92800, -7.602961e-1, 4.637791e-2, -2.165394e-3, 6.048144e-5, -7.293422e-7]);

    /// <summary>Voltage with the cold junction at 0 °C, mV.</summary>
    public double Millivolts(double temperatureC) =>
        Polynomial(_reference, temperatureC) + _bump.Height * Math.Exp(_bump.Rate * (temperatureC - _bump.CentreC) * (temperatureC - _bump.CentreC));

    /// <summary>Temperature at a voltage with the cold junction at 0 °C.</summary>
    public double TemperatureC(double millivolts) => Polynomial(_inverse, millivolts);

    private static double Polynomial(double[] coefficients, double x) => coefficients.Reverse().Aggregate(0.0, (sum, each) => sum * x + each);
}
