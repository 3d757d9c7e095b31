using VatWatch.Calibration;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Figures;

/// <summary>How far one probe could be trusted, and what it was calibrated with.</summary>
/// <param name="Good">Share of good ones, 0 to 1.</param>
/// <param name="Suspect">Of doubtful ones.</param>
/// <param name="Missing">Of those without an answer.</param>
/// <param name="CalibrationRow">Row of the calibration that the last reading was made with; null for none.</param>
/// <param name="Calibration">That calibration; null when it is not known any more.</param>
internal sealed record ProbeHealth(
    ProbeId Probe, Quantity Quantity, int Readings, double Good, double Suspect, double Missing, double Fault, long? CalibrationRow, DatedCalibration? Calibration)
{
    public static ProbeHealth Of(ProbeTrace trace, IReadOnlyList<DatedCalibration> calibrations)
    {
        double Share(Quality quality) => trace.Readings.Count(reading => reading.Quality == quality) / (double)trace.Readings.Count;

        var row = trace.Readings.LastOrDefault(reading => reading.Calibration is not null)?.Calibration;
        return new ProbeHealth(
            trace.Probe,
            trace.Quantity,
            trace.Readings.Count,
            Share(Quality.Good),
            Share(Quality.Suspect),
            Share(Quality.Missing),
            Share(Quality.Fault),
            row,
            calibrations.FirstOrDefault(one => one.Id == row));
    }
}
