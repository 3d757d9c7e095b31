namespace VatWatch.Science.Dosing;

/// <summary>The highest pH that goods of a fibre stand in a warm vat. Practice limits, from memory and meant to be set by the dyer.</summary>
/// <param name="Name">The fibre in words.</param>
/// <param name="HighestPh">No dose is advised towards a pH above this.</param>
/// <param name="IsProtein">True for wool, silk and hair, which alkali damages.</param>
public sealed record FibreLimit(string Name, double HighestPh, bool IsProtein)
{
    /// <summary>Above this wool is at risk, pH. Common practice, no source.</summary>
    public const double WoolPh = 9.5;

    /// <summary>Above this silk is at risk too, pH; the default limit of protein fibre. Common practice, no source.</summary>
    public const double SilkPh = 10;

    /// <summary>Above this cellulose gains nothing, pH: the top of the trade's band for cotton.</summary>
    public const double CellulosePh = 11.5;

    /// <summary>Wool, silk, hair.</summary>
    public static FibreLimit Protein(double highestPh = SilkPh) => new("protein fibre (wool, silk, hair)", Wanted.Within(highestPh, 7, 12, ""), true);

    /// <summary>Cotton, linen, hemp, viscose.</summary>
    public static FibreLimit Cellulose(double highestPh = CellulosePh) => new("cellulose (cotton, linen)", Wanted.Within(highestPh, 7, 13, ""), false);
}
