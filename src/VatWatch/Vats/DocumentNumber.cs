namespace VatWatch.Vats;

/// <summary>Numbers as documents carry them: JSON has no word for infinities and for what is no number (RFC 8259 §6), so these are null there.</summary>
public static class DocumentNumber
{
    /// <summary>The number itself; null when it is not finite.</summary>
    public static double? Finite(this double? value) => value is { } number && double.IsFinite(number) ? number : null;

    /// <summary>The number with so many decimals, which hide what arithmetic adds behind what was measured; null when it is not finite.</summary>
    public static double? Rounded(this double? value, int decimals = 4) => value.Finite() is { } number ? Math.Round(number, decimals) : null;

    /// <inheritdoc cref="Rounded(double?, int)"/>
    public static double? Rounded(this double value, int decimals = 4) => Rounded((double?)value, decimals);
}
