using VatWatch.Ledger;
using VatWatch.Ledger.Doses;
using VatWatch.Science.Dosing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Dosing;

/// <summary>The question how to sharpen a weak vat, as a person writes it; null for what its probes, its log book and its configuration tell.</summary>
internal sealed record SharpeningAsked(string? Kind, string? Volume, string? Temperature, string? Orp, string? Target)
{
    /// <summary>Answers; what cannot be read is filed.</summary>
    /// <param name="balance">Its ledger.</param>
    /// <param name="figures">Takes the faults.</param>
    /// <param name="name">What a figure is called where the person wrote it.</param>
    public DoseAnswer Answer(WeakVat vat, VatBalance balance, DoseFigures figures, Func<string, string> name)
    {
        if (Kind is not null && vat.Facts.Reducer?.Name != Kind)
        {
            figures.Fault(name("kind"), Kind, $"{vat.Facts.Vat.Reducer.Word()}, which keeps {vat.Facts.Vat.Name} reduced, or a mass of dye for another");
        }

        var said = vat with
        {
            TemperatureC = figures.OptionalQuantity(name("temperature"), Temperature, QuantityKind.Temperature, 0, 60) ?? vat.TemperatureC,
            OrpMillivolts = figures.OptionalQuantity(name("orp"), Orp, QuantityKind.Potential, -1200, 800) ?? vat.OrpMillivolts,
        };
        var litres = figures.OptionalQuantity(name("volume"), Volume, QuantityKind.Volume, 0.1, 10_000) ?? balance.Liquor.Value;
        return VatDose.Reducer(
            said, balance with { Liquor = balance.Liquor with { Value = litres } }, figures.OptionalQuantity(name("orp-target"), Target, QuantityKind.Potential, -1200, 800)).Answer;
    }
}
