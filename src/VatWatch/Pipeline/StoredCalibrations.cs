using VatWatch.Calibration;
using VatWatch.Store;

namespace VatWatch.Pipeline;

/// <summary>Carries calibrations from the store's table to the cache.</summary>
public static class StoredCalibrations
{
    /// <summary>Fills <paramref name="calibrations"/> with everything in the store.</summary>
    /// <returns>Those that were left out, with the reason as a clause.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read; the cache is as it was.</exception>
    public static IReadOnlyList<(StoredCalibration Stored, string Reason)> Fill(CalibrationCache calibrations, StoreReader reader)
    {
        var read = new List<DatedCalibration>();
        var left = new List<(StoredCalibration, string)>();
        foreach (var stored in CalibrationTable.All(reader))
        {
            if (CalibrationDocument.TryRead(stored.Json, out var calibration, out var whyNot))
            {
                read.Add(new DatedCalibration(stored.Id, stored.Probe, stored.Utc, calibration));
            }
            else
            {
                left.Add((stored, whyNot));
            }
        }

        calibrations.Fill(read);
        return left;
    }
}
