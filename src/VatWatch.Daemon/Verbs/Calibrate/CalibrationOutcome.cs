using VatWatch.Calibration;
using VatWatch.Vats;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>What came of a calibration.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="Calibration">What was found.</param>
/// <param name="Health">How it was judged.</param>
/// <param name="Utc">When.</param>
/// <param name="Row">Its row in the store; null when it was refused.</param>
internal sealed record CalibrationOutcome(ProbeDefinition Probe, ElectrodeCalibration Calibration, CalibrationHealth Health, DateTimeOffset Utc, long? Row);
