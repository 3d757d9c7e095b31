namespace VatWatch.Science.Indigo;

/// <summary>How well a vat is reduced, judged from its redox potential; from strongest to weakest, then no judgement.</summary>
public enum ReductionState
{
    /// <summary>Stronger than needed: may strip colour back off the yarn.</summary>
    OverStrong,

    /// <summary>The dye is fully reduced.</summary>
    Working,

    /// <summary>Reduced, but with little left to hold it.</summary>
    Weak,

    /// <summary>About half of the dye is blue.</summary>
    Turning,

    /// <summary>The dye is blue; a dip would wash out.</summary>
    Oxidised,

    /// <summary>The reading cannot be that of a vat: probe in air, broken or disconnected.</summary>
    NoContact,
}
