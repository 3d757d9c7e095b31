namespace VatWatch.Science.Heat;

/// <summary>
/// Contact with hot water until serious injury of adult skin. Children, older people and anyone with reduced sensation burn sooner; alkali injures besides.
/// </summary>
/// <param name="PartialThicknessSeconds">Second-degree injury; null where the source gives none (below 45 °C).</param>
/// <param name="FullThicknessSeconds">Third-degree injury; null below 44 °C, the threshold of the data.</param>
/// <param name="Extrapolated">True above 68 °C, where the last row is repeated.</param>
public readonly record struct ScaldTime(double? PartialThicknessSeconds, double? FullThicknessSeconds, bool Extrapolated)
{
    // Moritz and Henriques, Am. J. Pathol. 23 (1947) 695, as reproduced in a water-safety table, to 60 °C; above that the tap-water leaflet of the US
    // consumer product safety agency as quoted on public pages, which does not tell the degrees apart.
    private static readonly (double C, double Seconds)[] Partial =
        [(45, 7200), (47, 1200), (48, 900), (49, 480), (51, 120), (55, 17), (60, 3), (66, 1.5), (68, 1)];

    private static readonly (double C, double Seconds)[] Full =
        [(44, 21600), (45, 10800), (47, 2700), (48, 1200), (49, 600), (51, 252), (55, 30), (60, 5), (66, 2), (68, 1)];

    /// <summary>Times at a temperature of 0 to 100 °C; between the rows the logarithm of the time is taken as straight.</summary>
    public static ScaldTime At(double temperatureC)
    {
        Wanted.Within(temperatureC, 0, 100, "°C");
        return new(Seconds(Partial, temperatureC), Seconds(Full, temperatureC), temperatureC > Full[^1].C);
    }

    /// <summary>Time to second-degree injury of adult skin, rounded down, to follow "burns skin": "in about 18 seconds"; "at once" from a second down; null where the source gives none.</summary>
    public string? Words => PartialThicknessSeconds switch
    {
        null => null,
        <= 1 => "at once",
        < 120 and var seconds => $"in about {Math.Floor(seconds):0} second{(seconds < 2 ? "" : "s")}",
        < 3600 and var seconds => $"in about {Math.Floor(seconds / 60):0} minutes",
        var seconds => $"in about {Math.Floor(seconds.Value / 3600):0} hour{(seconds < 7200 ? "" : "s")}",
    };

    private static double? Seconds((double C, double Seconds)[] rows, double temperatureC)
    {
        if (temperatureC < rows[0].C)
            return null;
        for (var i = 1; i < rows.Length; i++)
        {
            var (low, high) = (rows[i - 1], rows[i]);
            if (temperatureC > high.C)
                continue;
            var share = (temperatureC - low.C) / (high.C - low.C);
            return low.Seconds * Math.Pow(high.Seconds / low.Seconds, share);
        }

        return rows[^1].Seconds;
    }
}
