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

    /// <summary>The liquor was stirred.</summary>
    Stir,

    /// <summary>The lid came off.</summary>
    LidOff,

    /// <summary>The lid went on.</summary>
    LidOn,
}

/// <summary>An act of a person at a moment.</summary>
/// <param name="Kind">What was done.</param>
/// <param name="At">When.</param>
public sealed record VatAct(VatActKind Kind, Stamp At);
