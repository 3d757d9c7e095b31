namespace VatWatch.Science.Oxygen;

/// <summary>
/// How fast oxygen passes a vat's surface: the liquid-film coefficient kL, cm/h, between two bounds. No measured value for a dye
/// vat was found; tune it to your own log of feeds. Immutable; safe on any thread.
/// </summary>
/// <param name="LowCentimetresPerHour">Lower bound, cm/h, 0 or more.</param>
/// <param name="HighCentimetresPerHour">Upper bound, cm/h, not below the lower.</param>
/// <exception cref="ArgumentOutOfRangeException">A bound is below 0, or they are crossed.</exception>
public sealed record TransferVelocity(double LowCentimetresPerHour, double HighCentimetresPerHour)
{
    // Per kelvin, from aeration tanks (Rao and Kumar, circular surface aerators); 1.81 from 20 to 45 °C, where the square root of
    // the Schmidt number gives 1.76.
    private const double PerKelvin = 1.024;

    /// <summary>Lower bound, cm/h.</summary>
    public double LowCentimetresPerHour { get; } = Wanted.NotNegative(LowCentimetresPerHour, "cm/h");

    /// <summary>Upper bound, cm/h.</summary>
    public double HighCentimetresPerHour { get; } = Wanted.AtLeast(HighCentimetresPerHour, LowCentimetresPerHour, "cm/h");

    /// <summary>One value without a band, cm/h.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is below 0.</exception>
    public static TransferVelocity Exactly(double centimetresPerHour) => new(centimetresPerHour, centimetresPerHour);

    /// <summary>
    /// Values for a warm vat (about 45 °C) in a state. Proposals: the open, still band brackets lakes without wind (2.07 cm/h, Cole
    /// and Caraco, Limnol. Oceanogr. 43, 1998, 647); the splashing band is from memory.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The state is not one of those named.</exception>
    public static TransferVelocity Of(SurfaceState state) => state switch
    {
        SurfaceState.CoveredStill => new TransferVelocity(0.3, 1),
        SurfaceState.OpenStill => new TransferVelocity(1, 4),
        SurfaceState.Dipping => new TransferVelocity(5, 15),
        SurfaceState.Splashing => new TransferVelocity(20, 50),
        _ => throw Wanted.Refusal((int)state, nameof(state), "one of the surface states"),
    };

    /// <summary>The same surface at another temperature: 1.024 to the power of the difference in kelvin.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A temperature does not exist.</exception>
    public TransferVelocity At(double temperatureC, double knownAtC)
    {
        var factor = Math.Pow(PerKelvin, Wanted.TemperatureC(temperatureC) - Wanted.TemperatureC(knownAtC));
        return new TransferVelocity(LowCentimetresPerHour * factor, HighCentimetresPerHour * factor);
    }
}

/// <summary>What goes on at a vat's surface.</summary>
public enum SurfaceState
{
    /// <summary>Lid on, still, with flower on the liquor.</summary>
    CoveredStill,

    /// <summary>Open, still, heated from below.</summary>
    OpenStill,

    /// <summary>Gentle stirring or dipping.</summary>
    Dipping,

    /// <summary>Splashing or pouring.</summary>
    Splashing,
}
