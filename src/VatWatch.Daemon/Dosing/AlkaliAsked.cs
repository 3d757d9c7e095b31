using VatWatch.Ledger;
using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Dosing;

/// <summary>The question for soda ash as a person writes it, on a command line or in a form; every quantity with its unit, null where nothing was said.</summary>
internal sealed record AlkaliAsked(string Volume, string Temperature, string Ph, string Target, string? Alkalinity, string? SodaAshSoFar, string? Fibre)
{
    /// <summary>Reads it; what cannot be read is filed.</summary>
    /// <param name="figures">Takes the faults.</param>
    /// <param name="name">What a figure is called where the person wrote it.</param>
    /// <param name="ledger">The ledger of the vat that it is for; it counts where neither alkalinity nor soda ash was said.</param>
    public AlkaliDoseRequest Read(DoseFigures figures, Func<string, string> name, VatBalance? ledger) => new(
        figures.Quantity(name("volume"), Volume, QuantityKind.Volume, 0.1, 10_000),
        figures.Quantity(name("temperature"), Temperature, QuantityKind.Temperature, 0, 60),
        figures.Number(name("ph"), Ph, "a pH such as 9.0"),
        figures.Number(name("target"), Target, "a pH such as 10.0"))
    {
        AlkalinityMeqPerLitre = figures.OptionalQuantity(name("alkalinity"), Alkalinity, QuantityKind.Alkalinity, 0, 1000),
        SodaAshSoFarGrams = figures.OptionalQuantity(name("soda-ash-so-far"), SodaAshSoFar, QuantityKind.Mass, 0, 100_000),
        Fibre = figures.OptionalFibre(name("fibre"), Fibre),
        CarbonateMmolPerLitre = ledger?.Carbonate.Value,
        Factor = ledger?.SodaAshFactor ?? DoseFactor.Untried(AlkaliDoseRequest.UntriedSigma),
    };
}
