namespace VatWatch.Science;

/// <summary>
/// A mass known only between two bounds, in grams, and whether it rests on an extrapolated figure. Immutable; safe on any thread.
/// </summary>
/// <param name="LowGrams">The least it can be, g, 0 or more.</param>
/// <param name="HighGrams">The most it can be, g; equal to or above <paramref name="LowGrams"/>.</param>
/// <param name="Extrapolated">True when an input was possible but outside the range its source vouches for.</param>
public readonly record struct MassRange(double LowGrams, double HighGrams, bool Extrapolated = false)
{
    /// <summary>Both masses together: lows add to lows, highs to highs.</summary>
    public static MassRange operator +(MassRange left, MassRange right) => left.Plus(right);

    /// <summary>Both masses together: lows add to lows, highs to highs.</summary>
    public MassRange Plus(MassRange other)
        => new(LowGrams + other.LowGrams, HighGrams + other.HighGrams, Extrapolated || other.Extrapolated);
}
