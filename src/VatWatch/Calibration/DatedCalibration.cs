namespace VatWatch.Calibration;

/// <summary>A calibration with its row and date; measurements name the row they were made with.</summary>
/// <param name="Id">Row in the store.</param>
/// <param name="Utc">When it was made.</param>
/// <param name="Calibration">What it found.</param>
public sealed record DatedCalibration(long Id, ProbeId Probe, DateTimeOffset Utc, ElectrodeCalibration Calibration);
