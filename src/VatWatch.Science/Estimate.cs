namespace VatWatch.Science;

/// <summary>
/// A computed figure together with the honesty about it: whether the inputs lay outside the range for which the source of the
/// equation or table vouches. The unit is that of the method that returned it. Immutable; safe on any thread.
/// </summary>
/// <param name="Value">The figure, in the unit named by the method that returned it. Always finite.</param>
/// <param name="Extrapolated">True when an input was possible but outside the source's stated range.</param>
public readonly record struct Estimate(double Value, bool Extrapolated)
{
    /// <summary>An estimate whose inputs lay inside the source's range.</summary>
    public static Estimate WithinRange(double value) => new(value, Extrapolated: false);

    /// <summary>An estimate that is flagged when <paramref name="input"/> lies outside <paramref name="low"/>..<paramref name="high"/>.</summary>
    public static Estimate InRange(double value, double input, double low, double high)
        => new(value, input < low || input > high);

    /// <summary>The same value, flagged as well when <paramref name="extrapolated"/> is true: use when two estimates are combined.</summary>
    public Estimate OrExtrapolated(bool extrapolated) => this with { Extrapolated = Extrapolated || extrapolated };
}
