namespace VatWatch.Conditions;

/// <summary>What a person did to a vat, as far as its readings answer to it.</summary>
public enum VatActKind
{
    /// <summary>Yarn went in or came out.</summary>
    Dip,

    /// <summary>Reducing agent, alkali, dye stock or feed was added.</summary>
    Addition,

    /// <summary>Water was added.</summary>
    TopUp,

    /// <summary>The vat was filled with new liquor.</summary>
    MadeAnew,

    /// <summary>The liquor was stirred.</summary>
    Stir,

    /// <summary>The lid came off.</summary>
    LidOff,

    /// <summary>The lid went on.</summary>
    LidOn,

    /// <summary>The heater was switched on at its plug or switch: a warm-up begins.</summary>
    HeaterOn,

    /// <summary>The heater was switched off: nothing is expected of it any more.</summary>
    HeaterOff,
}

/// <summary>An act of a person at a moment.</summary>
/// <param name="Kind">What was done.</param>
/// <param name="At">When; the past where an entry of an earlier run is taken up.</param>
public sealed record VatAct(VatActKind Kind, Stamp At)
{
    /// <summary>With <see cref="VatActKind.HeaterOn"/>: when the vat should be warm, UTC; null without such a wish.</summary>
    public DateTimeOffset? ReadyBy { get; init; }
}
