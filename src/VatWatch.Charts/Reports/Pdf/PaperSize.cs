namespace VatWatch.Charts.Reports.Pdf;

/// <summary>Size of a printed page, points of 1/72 inch.</summary>
public sealed record PaperSize(float Width, float Height)
{
    /// <summary>210 mm by 297 mm (ISO 216).</summary>
    public static PaperSize A4 { get; } = new(595.28f, 841.89f);

    /// <summary>8.5 in by 11 in (ANSI/ASME Y14.1 size A).</summary>
    public static PaperSize Letter { get; } = new(612, 792);

    /// <summary>Letter with US units, A4 with SI.</summary>
    internal static PaperSize UsualWith(DisplayUnits units) => units.IsUs ? Letter : A4;
}
