namespace VatWatch.Calibration;

/// <summary>What calibration made of a delivered value.</summary>
/// <param name="Value">In the canonical unit; null when it cannot be worked out.</param>
/// <param name="Calibration">Row of the calibration used; null when none was.</param>
/// <param name="Doubt">Why the value is doubtful or absent, as a clause; null when all is well.</param>
public readonly record struct CalibratedValue(double? Value, long? Calibration, string? Doubt);
