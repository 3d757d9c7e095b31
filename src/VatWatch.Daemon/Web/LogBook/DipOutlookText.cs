using VatWatch.Conditions.Heating;

namespace VatWatch.Daemon.Web.LogBook;

/// <summary>What a dip will do to the vat, in sentences.</summary>
internal static class DipOutlookText
{
    /// <summary>The sentences, the weightiest first.</summary>
    public static IEnumerable<string> Sentences(DipOutlook outlook, TemperatureBand band, DisplayUnits units)
    {
        yield return $"The next dip cools the liquor by {Range(outlook.Drop.Low, outlook.Drop.High, units)}, to about {units.Temperature((outlook.After.Low + outlook.After.High) / 2)}.";
        if (outlook.After.Low < band.LowC)
        {
            yield return $"That is below the working band, which starts at {units.Temperature(band.LowC)}: let it warm first, or dip less yarn.";
        }

        yield return outlook.Recovery switch
        {
            null => "The heater does not make that good.",
            { Late: { } late } back => $"With the heater on it is back in {Between(back.Early, late)}.",
            { } back => $"With the heater on it is back in {DisplayUnits.Duration(back.Early)} at the earliest, or not for hours.",
        };
        yield return outlook switch
        {
            { MostDips: 0 } => "No dip is left in it before it should warm and rest.",
            { FewestDips: var few, MostDips: var most } when few == most => $"Room for about {DisplayUnits.Count(few, "dip")} before a rest.",
            _ => $"Room for {outlook.FewestDips} to {DisplayUnits.Count(outlook.MostDips, "dip")} before a rest.",
        };
        if (outlook.OrpBack is { } orp)
        {
            yield return $"ORP was back {DisplayUnits.Duration(orp)} after a dip (middle of {outlook.OrpDips}).";
        }
    }

    private static string Between(TimeSpan early, TimeSpan late) =>
        DisplayUnits.Duration(early) == DisplayUnits.Duration(late) ? DisplayUnits.Duration(late) : $"{DisplayUnits.Duration(early)} to {DisplayUnits.Duration(late)}";

    private static string Range(double lowK, double highK, DisplayUnits units)
    {
        var (low, high) = (Number(units.FromKelvinDifference(lowK)), Number(units.FromKelvinDifference(highK)));
        return low == high ? $"{low} {units.TemperatureUnit}" : $"{low} to {high} {units.TemperatureUnit}";
    }

    private static string Number(double value) => value.ToString("0.0");
}
