using VatWatch.Science.Heat;

namespace VatWatch.Daemon.Web.Vats;

/// <summary>The standing caution about hot liquor, with the time of <see cref="ScaldTime"/> to a burn.</summary>
internal static class ScaldCaution
{
    /// <summary>From here the caution stands, °C: hotter is painful.</summary>
    public const double FromC = 43;

    /// <summary>From here minutes are enough to injure, °C.</summary>
    public const double UrgentFromC = 49;

    /// <summary>The sentence, or null below <see cref="FromC"/>.</summary>
    public static string? For(double? temperatureC, DisplayUnits units)
    {
        if (temperatureC is not { } hot || hot < FromC)
        {
            return null;
        }

        return ScaldTime.At(Math.Min(hot, 100)).Words is not { } time
            ? $"Hot and alkaline: at {units.Temperature(hot)} the liquor is painful on skin. Gloves on; unplug the heater before reaching in."
            : $"Scald: liquor at {units.Temperature(hot)} burns bare skin {time}, a child's sooner, and alkali makes it worse. Gloves on; unplug the heater before reaching in.";
    }
}
