using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Dosing;

/// <summary>The question for reducing agent as a person writes it, on a command line or in a form; every quantity with its unit, null where nothing was said.</summary>
internal sealed record ReducerAsked(string Kind, string Volume, string Temperature, string Dye, string? DyeStrength, bool ClearOxygen, string? Excess)
{
    private static readonly (string Word, ReducerKind Value)[] Kinds = [.. ReducerKind.All.Select(kind => (kind.Name, kind))];

    /// <summary>Reads it; what cannot be read is filed.</summary>
    /// <param name="figures">Takes the faults.</param>
    /// <param name="name">What a figure is called where the person wrote it.</param>
    public ReducerDoseRequest Read(DoseFigures figures, Func<string, string> name) => new(
        figures.Word(name("kind"), Kind, Kinds),
        figures.Quantity(name("volume"), Volume, QuantityKind.Volume, 0.1, 10_000),
        figures.Quantity(name("temperature"), Temperature, QuantityKind.Temperature, 0, 60),
        figures.Quantity(name("dye"), Dye, QuantityKind.Mass, 0, 100_000))
    {
        DyeAssay = figures.OptionalQuantity(name("dye-strength"), DyeStrength, QuantityKind.Percent, 0, 100) / 100,
        ClearOxygen = ClearOxygen,
        Excess = figures.OptionalNumber(name("excess"), Excess, "a number of times such as 2"),
    };
}
