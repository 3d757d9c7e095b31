namespace VatWatch.Science.Indigo;

/// <summary>Electrons taken by what a reducing agent is spent on.</summary>
internal static class Electrons
{
    /// <summary>Indigo + 2 e⁻ + 2 H⁺ → leuco-indigo (Bond et al., J. Chem. Soc. Perkin Trans. 2, 1997, 1735).</summary>
    internal const int ForIndigo = 2;

    /// <summary>O₂ + 4 e⁻ + 2 H₂O → 4 OH⁻.</summary>
    internal const int ForOxygen = 4;
}
