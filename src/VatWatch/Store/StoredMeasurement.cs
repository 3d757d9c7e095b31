using VatWatch.Measurements;
using VatWatch.Store.Series;

namespace VatWatch.Store;

/// <summary>A measurement with its place in the store.</summary>
/// <param name="Key">Row id; grows with the label of time.</param>
/// <param name="Run">Start of the daemon it was taken in; monotonic times of different runs must not be compared.</param>
/// <param name="ProbeRow">Row of the probe's dictionary.</param>
public readonly record struct StoredMeasurement(long Key, long Run, long ProbeRow, Measurement Measurement)
{
    /// <summary>Order of arrival among the readings of its microsecond, 0 to 63. Label and order together are never given twice.</summary>
    public int Order => (int)(Key & (MeasurementKey.PerMicrosecond - 1));
}
