namespace VatWatch.Daemon.Dosing;

/// <summary>A dose in words.</summary>
internal static class DoseMass
{
    /// <summary>Both units, to what a kitchen scale shows: "27 g (0.95 oz)".</summary>
    public static string Of(double grams)
    {
        var digits = grams < 10 ? "0.0" : "0";
        var ounces = grams / DisplayUnits.GramsPerOunce;
        return $"{grams.ToString(digits)} g ({ounces:0.00} oz)";
    }
}
