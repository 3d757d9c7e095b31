namespace VatWatch.Daemon.Web.Vats.Figures;

/// <summary>A rate of change as an arrow and in words; the arrow never stands alone.</summary>
internal static class TrendText
{
    /// <summary>Below this a liquor is called steady: about the wobble of a probe of 0.1 K over half an hour.</summary>
    public const double SteadyKPerHour = 0.2;

    /// <summary>Below this a potential is called steady.</summary>
    public const double SteadyMillivoltsPerHour = 2;

    /// <summary>Of the liquor temperature; K/h.</summary>
    public static string? OfTemperature(double? rate, DisplayUnits units) =>
        rate is { } known ? Words(known, SteadyKPerHour, units.TemperatureRate(Math.Abs(known))) : null;

    /// <summary>Of the potential; mV/h. Towards zero and above is towards oxidised, which few people carry in their heads.</summary>
    public static string? OfOrp(double? rate)
    {
        if (rate is not { } known)
        {
            return null;
        }

        var words = Words(known, SteadyMillivoltsPerHour, $"{Math.Abs(known):F0} mV/h");
        return Math.Abs(known) < SteadyMillivoltsPerHour ? words : known > 0 ? $"{words}, losing reduction" : $"{words}, gaining reduction";
    }

    private static string Words(double rate, double steady, string amount) => rate switch
    {
        _ when Math.Abs(rate) < steady => "→ steady",
        > 0 => $"↗ rising {amount}",
        _ => $"↘ falling {amount}",
    };
}
