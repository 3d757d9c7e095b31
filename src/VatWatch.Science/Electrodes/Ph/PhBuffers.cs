namespace VatWatch.Science.Electrodes.Ph;

/// <summary>
/// The buffers VatWatch knows.
/// <para>
/// Primary: NBS/NIST–IUPAC set (Covington, Bates and Durst 1985; IUPAC Recommendations 2002, Pure Appl. Chem. 74, 2169), seen in a
/// public transcription; within 0.02 of JIS Z 8802:2011. IUPAC 2002 differs by 0.001 in three rows (from memory).
/// </para>
/// <para>
/// Technical: one instrument maker's table of October 2005; others differ by 0.01 to 0.02, so a bottle's own figure wins.
/// </para>
/// </summary>
public static class PhBuffers
{
    /// <summary>Potassium hydrogen phthalate 0.05 mol/kg, pH 4.005 at 25 °C, 0 to 60 °C.</summary>
    public static PhBuffer Phthalate { get; } = new("phthalate 4.005", 4.005, Every5C(
        4.000, 3.998, 3.997, 3.998, 4.001, 4.005, 4.011, 4.018, 4.027, 4.038, 4.050, 4.064, 4.080));

    /// <summary>Equimolal phosphate 0.025 mol/kg, pH 6.865 at 25 °C, 0 to 60 °C.</summary>
    public static PhBuffer Phosphate { get; } = new("phosphate 6.865", 6.865, Every5C(
        6.984, 6.951, 6.923, 6.900, 6.881, 6.865, 6.853, 6.844, 6.838, 6.834, 6.833, 6.833, 6.836));

    /// <summary>Phosphate mixture of pH 7.000 at 25 °C, 0 to 60 °C.</summary>
    public static PhBuffer Phosphate7000 { get; } = new("phosphate 7.000", 7.000, Every5C(
        7.118, 7.087, 7.059, 7.036, 7.016, 7.000, 6.987, 6.977, 6.970, 6.965, 6.964, 6.965, 6.968));

    /// <summary>Phosphate mixture of pH 7.413 at 25 °C, 0 to 50 °C.</summary>
    public static PhBuffer Phosphate7413 { get; } = new("phosphate 7.413", 7.413, Every5C(
        7.534, 7.500, 7.472, 7.448, 7.429, 7.413, 7.400, 7.389, 7.380, 7.373, 7.367));

    /// <summary>Borax 0.01 mol/kg, pH 9.180 at 25 °C, 0 to 60 °C.</summary>
    public static PhBuffer Borax { get; } = new("borax 9.180", 9.180, Every5C(
        9.464, 9.395, 9.332, 9.276, 9.225, 9.180, 9.139, 9.102, 9.068, 9.038, 9.010, 8.985, 8.962));

    /// <summary>Bicarbonate and carbonate 0.025 mol/kg each, pH 10.012 at 25 °C, 0 to 50 °C. Takes up CO₂ from air and drifts low.</summary>
    public static PhBuffer Carbonate { get; } = new("carbonate 10.012", 10.012, Every5C(
        10.317, 10.245, 10.179, 10.118, 10.062, 10.012, 9.966, 9.925, 9.889, 9.857, 9.828));

    /// <summary>Calcium hydroxide saturated at 25 °C, pH 12.454 there, 0 to 60 °C; a secondary standard.</summary>
    public static PhBuffer CalciumHydroxide { get; } = new("calcium hydroxide 12.454", 12.454, Every5C(
        13.424, 13.207, 13.003, 12.810, 12.627, 12.454, 12.289, 12.133, 11.984, 11.841, 11.705, 11.574, 11.449));

    /// <summary>Ready-made buffer sold as 4.00 or 4.01, 0 to 50 °C.</summary>
    public static PhBuffer Technical400 { get; } = new("technical 4.00", 4.00, Every5C(
        4.00, 4.00, 4.00, 4.00, 4.00, 4.00, 4.01, 4.02, 4.03, 4.04, 4.06));

    /// <summary>Ready-made buffer sold as 7.00, 0 to 50 °C.</summary>
    public static PhBuffer Technical700 { get; } = new("technical 7.00", 7.00, Every5C(
        7.12, 7.09, 7.06, 7.04, 7.02, 7.00, 6.99, 6.99, 6.98, 6.98, 6.97));

    /// <summary>Ready-made buffer sold as 10.01, 0 to 50 °C.</summary>
    public static PhBuffer Technical1001 { get; } = new("technical 10.01", 10.01, Every5C(
        10.32, 10.25, 10.18, 10.12, 10.06, 10.01, 9.97, 9.93, 9.89, 9.86, 9.83));

    /// <summary>The standards, from low to high pH.</summary>
    public static IReadOnlyList<PhBuffer> PrimarySet { get; } =
        [Phthalate, Phosphate, Phosphate7000, Phosphate7413, Borax, Carbonate, CalciumHydroxide];

    /// <summary>The ready-made buffers, from low to high pH.</summary>
    public static IReadOnlyList<PhBuffer> TechnicalSet { get; } = [Technical400, Technical700, Technical1001];

    private static TemperatureTable Every5C(params ReadOnlySpan<double> ph) => TemperatureTable.Evenly(0, 5, ph);
}
