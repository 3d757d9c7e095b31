using System.CommandLine;
using VatWatch.Daemon.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs.Dosing;

/// <summary>Options that both doses share.</summary>
internal static class DoseOptions
{
    public static Option<string?> Volume() => new("--volume") { Description = "Liquor in the vat, such as \"40 gal\" or \"60 L\".", HelpName = "VOLUME" };

    /// <summary>The units of who asks: whoever says the temperature in °F weighs in ounces.</summary>
    public static DisplayUnits UnitsOf(string temperature) => new(Typed.Quantity(temperature).EndsWith("°F", StringComparison.Ordinal));

    /// <summary>The option that carries a figure.</summary>
    public static string Named(string figure) => $"--{figure}";

    /// <summary>What was said, else what is known of the vat; a fault where neither is.</summary>
    public static string Said(DoseFigures figures, string name, string? said, string? known) =>
        said ?? known ?? figures.Missing(Named(name), "it, or --vat with the vat that knows it");

    public static Option<string?> Temperature() =>
        new("--temperature") { Description = "Its temperature, such as \"113 °F\" or \"45 °C\".", HelpName = "TEMPERATURE" };
}
