namespace VatWatch.Science.Oxygen;

/// <summary>Hours of a day that a vat's surface spends in one way. Immutable; safe on any thread.</summary>
/// <param name="Velocity">How fast oxygen passes the surface meanwhile.</param>
/// <param name="Hours">How long, h, 0 to 24.</param>
public readonly record struct SurfaceHours(TransferVelocity Velocity, double Hours)
{
    /// <summary>Hours in a state with its usual transfer velocity.</summary>
    public static SurfaceHours In(SurfaceState state, double hours) => new(TransferVelocity.Of(state), hours);
}
