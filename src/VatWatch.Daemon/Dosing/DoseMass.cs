namespace VatWatch.Daemon.Dosing;

/// <summary>A dose in words, to what a kitchen scale shows.</summary>
internal static class DoseMass
{
    /// <summary>In the dyer's unit alone: "0.95 oz" or "27 g".</summary>
    public static string In(double grams, DisplayUnits units) => units.IsUs ? $"{grams / DisplayUnits.GramsPerOunce:0.00} oz" : $"{grams.ToString(grams < 10 ? "0.0" : "0")} g";

    /// <summary>In the dyer's unit, with the other in brackets: "0.95 oz (27 g)".</summary>
    public static string Of(double grams, DisplayUnits units) => $"{In(grams, units)} ({In(grams, new(!units.IsUs))})";
}
