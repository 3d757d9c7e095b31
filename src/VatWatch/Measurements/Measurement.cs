namespace VatWatch.Measurements;

/// <summary>A calibrated, judged value. The raw one is kept beside it.</summary>
/// <param name="Quantity">What it measures; <paramref name="Value"/> is in its canonical unit.</param>
/// <param name="Stamp">When, by both clocks.</param>
/// <param name="Raw">As the probe delivered it, in the probe's own unit; null when it delivered none.</param>
/// <param name="Value">In the canonical unit (°C, pH, mV, 1 or 0, %); null when there is none.</param>
/// <param name="Quality">How far it may be trusted.</param>
/// <param name="Reason">In words, for anything but good.</param>
/// <param name="Calibration">Row of the calibration that was used; null when none was.</param>
public sealed record Measurement(
    VatId Vat,
    ProbeId Probe,
    Quantity Quantity,
    Stamp Stamp,
    double? Raw,
    double? Value,
    Quality Quality,
    string? Reason,
    long? Calibration)
{
    /// <summary>The value when it may be used without a second thought.</summary>
    public double? GoodValue => Quality == Quality.Good ? Value : null;
}
