using System.Globalization;

namespace VatWatch.Charts.Recipes;

/// <summary>Numbers as charts and reports write them.</summary>
internal static class Words
{
    /// <summary>Rounded half away from zero, without needless zeros, with a true minus sign; no "−0".</summary>
    public static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        var text = (rounded == 0 ? 0 : rounded).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);
        return text.Replace('-', '−');
    }

    /// <summary>A quantity whose blanks do not break at the end of a line: a number stays with its unit.</summary>
    public static string Unbroken(string quantity) => quantity.Replace(' ', '\u00a0');
}
