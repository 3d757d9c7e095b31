namespace VatWatch.Daemon.Web.Pages;

/// <summary>
/// The standing caution about hot liquor. Times to a second-degree burn of adult skin: Moritz and Henriques 1947 (Am. J. Pathol. 23, 695), as
/// reproduced in a water-safety table. Children, older people and numb hands burn sooner.
/// </summary>
internal static class ScaldCaution
{
    /// <summary>From here the caution stands, °C: hotter is painful.</summary>
    public const double FromC = 43;

    /// <summary>From here minutes are enough to injure, °C.</summary>
    public const double UrgentFromC = 49;

    private static readonly (double FromC, string Time)[] Times =
    [
        (60, "within 3 seconds"),
        (55, "within about 20 seconds"),
        (51, "within about 2 minutes"),
        (49, "in about 5 to 10 minutes"),
        (47, "in about 15 to 20 minutes"),
        (45, "in an hour or two"),
    ];

    /// <summary>The sentence, or null below <see cref="FromC"/>.</summary>
    public static string? For(double? temperatureC, DisplayUnits units)
    {
        if (temperatureC is not { } hot || hot < FromC)
        {
            return null;
        }

        var time = Times.FirstOrDefault(row => hot >= row.FromC).Time;
        return time is null
            ? $"Hot and alkaline: at {units.Temperature(hot)} the liquor is painful on skin. Gloves on; unplug the heater before reaching in."
            : $"Scald: liquor at {units.Temperature(hot)} burns bare skin {time}, and alkali makes it worse. Gloves on; unplug the heater before reaching in.";
    }
}
