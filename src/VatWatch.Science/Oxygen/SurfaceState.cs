namespace VatWatch.Science.Oxygen;

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
