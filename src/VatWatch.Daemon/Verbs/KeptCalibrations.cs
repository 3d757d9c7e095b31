using VatWatch.Calibration;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Pipeline;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary>Takes up the calibrations that a store keeps.</summary>
internal static class KeptCalibrations
{
    /// <summary>Those of the store in a folder; none where no daemon has run yet, which the readings then say themselves.</summary>
    public static CalibrationCache Of(string folder, VerbConsole console)
    {
        var calibrations = new CalibrationCache();
        if (!StoreReader.Exists(folder))
        {
            return calibrations;
        }

        try
        {
            using var reader = StoreReader.OpenFolder(folder);
            foreach (var (stored, reason) in StoredCalibrations.Fill(calibrations, reader))
            {
                console.Error.WriteLine($"vatwatch: calibration {stored.Id} of probe '{stored.Probe}' was left out: {reason}.");
            }
        }
        catch (StoreUnavailableException e)
        {
            console.Error.WriteLine($"vatwatch: calibrations are not used: {e.Message}");
        }

        return calibrations;
    }
}
