using VatWatch.Science.Dosing;

namespace VatWatch.Ledger;

/// <summary>What is in a vat at a moment. Ranges hold about 80 %. Immutable.</summary>
/// <param name="At">The moment, UTC.</param>
/// <param name="Liquor">Liquor in the vat, L.</param>
/// <param name="Indigo">Dye in it, reduced or not, g of pure indigo.</param>
/// <param name="Alkalinity">Alkalinity, meq/L.</param>
/// <param name="Carbonate">Carbonate in all its forms, mmol/L.</param>
/// <param name="Reducer">Reducing agent that is left, g of the pure agent.</param>
public sealed record VatBalance(DateTimeOffset At, Holding Liquor, Holding Indigo, Holding Alkalinity, Holding Carbonate, Holding Reducer)
{
    /// <summary>Every line of the balance with its name.</summary>
    public IReadOnlyList<(string Name, Holding Holding)> Lines => [("liquor", Liquor), ("indigo", Indigo), ("alkalinity", Alkalinity), ("carbonate", Carbonate), ("reducer", Reducer)];

    /// <summary>How many times theory the next dose of soda ash takes.</summary>
    public DoseFactor SodaAshFactor { get; init; } = DoseFactor.Untried(AlkaliDoseRequest.UntriedSigma);

    /// <summary>The same of reducing agent.</summary>
    public DoseFactor ReducerFactor { get; init; } = DoseFactor.Untried(ReducerDoseRequest.UntriedSigma);
}

/// <summary>One line of a balance. Immutable.</summary>
/// <param name="Low">Lower end of its range, 0 or more.</param>
/// <param name="High">Upper end.</param>
/// <param name="Unit">"L", "g", "meq/L" or "mmol/L".</param>
/// <param name="RestsOn">What it rests on, a sentence each.</param>
public sealed record Holding(double Low, double Value, double High, string Unit, IReadOnlyList<string> RestsOn)
{
    /// <summary>Half-width of a range of 80 % in standard deviations.</summary>
    private const double RangeSigmas = 1.2816;

    /// <summary>Standard deviation.</summary>
    public double Sigma => (High - Value) / RangeSigmas;

    /// <summary>A line of so much, give or take.</summary>
    public static Holding Of(double value, double sigma, string unit, IReadOnlyList<string> restsOn) =>
        new(Math.Max(0, value - RangeSigmas * sigma), value, value + RangeSigmas * sigma, unit, restsOn);

    /// <summary>One of its values in the dyer's units, such as "38.5 gal".</summary>
    public string In(double value, DisplayUnits units)
    {
        return Unit switch
        {
            "L" => units.Volume(value),
            "g" => units.Mass(value),
            _ => $"{value:0.#} {Unit}",
        };
    }
}
