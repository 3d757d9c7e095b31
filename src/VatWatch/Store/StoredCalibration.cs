namespace VatWatch.Store;

/// <summary>A calibration as kept: what its capability wrote, with its row and date.</summary>
/// <param name="Id">Row; measurements name it.</param>
/// <param name="Utc">When it was made.</param>
/// <param name="Json">What it holds.</param>
public sealed record StoredCalibration(long Id, ProbeId Probe, DateTimeOffset Utc, string Json);
