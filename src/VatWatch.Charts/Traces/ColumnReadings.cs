using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Charts.Traces;

/// <summary>
/// Turns a column of the store into values that a chart and its figures take as readings: first, lowest, highest and last, a third of the column apart, so
/// that no peak is lost.
/// </summary>
internal static class ColumnReadings
{
    /// <summary>The values of one column, in order of time: one where there is one, otherwise four.</summary>
    public static IEnumerable<Measurement> Of(ProbeDefinition probe, MeasurementColumn column)
    {
        var length = column.End - column.Start;
        Measurement At(double share, double value)
        {
            var utc = column.Start + length * share;
            return new Measurement(probe.Vat, probe.Id, probe.Quantity, new Stamp(utc, utc - DateTimeOffset.UnixEpoch, true), null, value, Quality.Good, null, null);
        }

        if (column.Count == 1)
            return [At(0, column.First)];
        var (second, third) = column.Last >= column.First ? (column.Min, column.Max) : (column.Max, column.Min);
        return [At(0, column.First), At(1 / 3.0, second), At(2 / 3.0, third), At(0.999, column.Last)];
    }
}
