using VatWatch.Science.Heat.Model;

namespace VatWatch.Science.Tests.Heat;

/// <summary>The six vats whose figures a separate program computed; 0.50 m across.</summary>
internal static class HeatCases
{
    public const double DiameterM = 0.50;

    public static (VatInsulation Insulation, Lid Lid) Of(string name) => name switch
    {
        "bare, open" => (VatInsulation.Bare, Lid.Off),
        "bare, lid" => (VatInsulation.Bare, Lid.Tight),
        "wrap, open" => (VatInsulation.ReflectiveWrap, Lid.Off),
        "wrap, lid" => (VatInsulation.ReflectiveWrap, Lid.Tight),
        "foam 25" => (VatInsulation.Foam25Mm, Lid.Tight),
        "foam 50" => (VatInsulation.Foam50Mm, Lid.Tight),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "unknown case"),
    };

    /// <summary>The model of a case: 6 kg of plastic and 2 kJ/K of gear.</summary>
    public static VatHeatModel Model(string name) => new(DiameterM, Of(name).Insulation, VatHeatCapacity.ShellJPerK(6));

    /// <summary>0.637 m of liquor at a temperature, measured at 18 °C.</summary>
    public static VatHeatState Filled(double temperatureC) =>
        new(temperatureC, VatHeatState.OfVolume(18, 1000 * Math.PI / 16 * 0.6366).WaterKg);
}
