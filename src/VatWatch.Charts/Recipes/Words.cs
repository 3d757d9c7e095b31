namespace VatWatch.Charts.Recipes;

/// <summary>Numbers as charts and reports write them.</summary>
internal static class Words
{
    /// <summary>A measured number: rounded half away from zero, always with these decimals, with a true minus sign; no "−0".</summary>
    public static string Number(double value, int decimals) => Write(value, decimals, "F" + decimals);

    /// <summary>The same without needless zeros: a setting beside a curve.</summary>
    public static string Short(double value, int decimals) => Write(value, decimals, "0." + new string('#', decimals));

    private static string Write(double value, int decimals, string form)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString(form).Replace('-', '−');
    }

    /// <summary>A quantity whose blanks do not break at the end of a line: a number stays with its unit.</summary>
    public static string Unbroken(string quantity) => quantity.Replace(' ', '\u00a0');
}
