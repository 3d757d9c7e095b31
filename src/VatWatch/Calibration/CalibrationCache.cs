namespace VatWatch.Calibration;

/// <summary>
/// Every calibration of every probe, in the order they were made. One thread puts calibrations on it, any thread reads.
/// </summary>
/// <remarks>
/// In use is the one added last, whatever its date: a computer without its network time may have dated the one before into the future.
/// </remarks>
public sealed class CalibrationCache
{
    private volatile Dictionary<ProbeId, IReadOnlyList<DatedCalibration>> _byProbe = [];

    /// <summary>Newest row; 0 when there is none.</summary>
    public long Newest => _byProbe.Values.Select(list => list[^1].Id).DefaultIfEmpty().Max();

    /// <summary>Replaces everything by <paramref name="all"/>, which may be in any order.</summary>
    public void Fill(IEnumerable<DatedCalibration> all) => _byProbe = all
        .OrderBy(one => one.Id)
        .GroupBy(one => one.Probe)
        .ToDictionary(group => group.Key, group => (IReadOnlyList<DatedCalibration>)[.. group]);

    /// <summary>All of one probe, oldest first.</summary>
    public IReadOnlyList<DatedCalibration> Of(ProbeId probe) => _byProbe.GetValueOrDefault(probe) ?? [];

    /// <summary>The one in use; null when the probe was never calibrated.</summary>
    public DatedCalibration? InUse(ProbeId probe) => Of(probe) is [.., var last] ? last : null;

    /// <summary>The one in use before <paramref name="calibration"/>.</summary>
    public DatedCalibration? Before(DatedCalibration calibration) => Of(calibration.Probe).LastOrDefault(one => one.Id < calibration.Id);
}
