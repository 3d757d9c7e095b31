namespace VatWatch.Science.Thermometry;

/// <summary>What a platinum resistance thermometer may be off by. Source: IEC 60751 classes, wire-wound, in two secondary prints.</summary>
public static class PlatinumTolerance
{
    /// <summary>Tolerance, ± °C; flagged outside the temperatures the class is defined for.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The temperature does not exist, or the class is not one of those named.</exception>
    public static Estimate PlusMinusC(PlatinumClass platinumClass, double temperatureC)
    {
        var (fixedC, perC, lowC, highC) = platinumClass switch
        {
            PlatinumClass.AA => (0.1, 0.0017, -50, 250),
            PlatinumClass.A => (0.15, 0.002, -100, 450),
            PlatinumClass.B => (0.3, 0.005, -196, 600),
            PlatinumClass.C => (0.6, 0.01, -196, 600),
            _ => throw Wanted.Refusal((int)platinumClass, nameof(platinumClass), "one of the classes AA, A, B, C"),
        };
        return Estimate.InRange(fixedC + perC * Math.Abs(Wanted.TemperatureC(temperatureC)), temperatureC, lowC, highC);
    }
}

/// <summary>Tolerance classes of platinum resistance thermometers by IEC 60751.</summary>
public enum PlatinumClass
{
    /// <summary>0.1 + 0.0017 |t|, −50 to 250 °C.</summary>
    AA,

    /// <summary>0.15 + 0.002 |t|, −100 to 450 °C.</summary>
    A,

    /// <summary>0.3 + 0.005 |t|, −196 to 600 °C.</summary>
    B,

    /// <summary>0.6 + 0.01 |t|, −196 to 600 °C.</summary>
    C,
}
