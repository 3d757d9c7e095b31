namespace VatWatch.Vats;

/// <summary>What a probe measures. The canonical unit of each is in <see cref="QuantityText"/>.</summary>
public enum Quantity
{
    /// <summary>Liquor temperature, °C.</summary>
    Temperature,

    /// <summary>Room temperature, °C.</summary>
    Ambient,

    /// <summary>pH of the liquor at its own temperature.</summary>
    Ph,

    /// <summary>Oxidation-reduction potential against the vat's named reference electrode, mV.</summary>
    Orp,

    /// <summary>Heater state: 1 drawing power, 0 not.</summary>
    Heater,

    /// <summary>Liquor level, per cent of full.</summary>
    Level,
}
