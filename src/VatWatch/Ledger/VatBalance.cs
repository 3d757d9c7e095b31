namespace VatWatch.Ledger;

/// <summary>What is in a vat at a moment. Ranges hold about 80 %. Immutable.</summary>
/// <param name="At">The moment, UTC.</param>
/// <param name="Liquor">Liquor in the vat, L.</param>
/// <param name="Indigo">Dye in it, reduced or not, g of pure indigo.</param>
/// <param name="Alkalinity">Alkalinity, meq/L.</param>
/// <param name="Reducer">Reducing agent that is left, g of the pure agent.</param>
public sealed record VatBalance(DateTimeOffset At, Holding Liquor, Holding Indigo, Holding Alkalinity, Holding Reducer)
{
    /// <summary>Every line of the balance with its name.</summary>
    public IReadOnlyList<(string Name, Holding Holding)> Lines => [("liquor", Liquor), ("indigo", Indigo), ("alkalinity", Alkalinity), ("reducer", Reducer)];
}

/// <summary>One line of a balance. Immutable.</summary>
/// <param name="Low">Lower end of its range, 0 or more.</param>
/// <param name="Value">Best value.</param>
/// <param name="High">Upper end.</param>
/// <param name="Unit">"L", "g" or "meq/L".</param>
/// <param name="RestsOn">What it rests on, a sentence each.</param>
public sealed record Holding(double Low, double Value, double High, string Unit, IReadOnlyList<string> RestsOn)
{
    /// <summary>One of its values in the dyer's units, such as "38.5 gal".</summary>
    public string In(double value, DisplayUnits units)
    {
        ArgumentNullException.ThrowIfNull(units);
        return Unit switch
        {
            "L" => units.Volume(value),
            "g" => units.Mass(value),
            _ => $"{value:0.#} {Unit}",
        };
    }
}
