using VatWatch.Measurements;
using VatWatch.Store.Series;

namespace VatWatch.Charts.Traces;

/// <summary>
/// Turns a column of the store into values that a chart and its figures take as readings: first, lowest, highest and last, a third of the column apart, so
/// that no peak is lost. A switched thing is on for the share of the column that it was on.
/// </summary>
internal static class ColumnReadings
{
    /// <summary>The values of one column, in order of time: one where there is one, otherwise four; of a heater one or two.</summary>
    public static IEnumerable<Measurement> Of(ProbeDefinition probe, MeasurementColumn column) =>
        (probe.Quantity == Quantity.Heater ? Switched(column) : Extremes(column)).Select(one => At(probe, column, one.Share, one.Value));

    private static Measurement At(ProbeDefinition probe, MeasurementColumn column, double share, double value)
    {
        var utc = column.Start + (column.End - column.Start) * share;
        var isSuspect = column.Worst == Quality.Suspect;
        return new Measurement(
            probe.Vat,
            probe.Id,
            probe.Quantity,
            new Stamp(utc, utc - DateTimeOffset.UnixEpoch, true),
            null,
            value,
            isSuspect ? Quality.Suspect : Quality.Good,
            isSuspect ? "doubtful within this stretch" : null,
            null);
    }

    private static (double Share, double Value)[] Extremes(MeasurementColumn column)
    {
        if (column.Count == 1)
            return [(0, column.First)];
        var (second, third) = column.Last >= column.First ? (column.Min, column.Max) : (column.Max, column.Min);
        return [(0, column.First), (1 / 3.0, second), (2 / 3.0, third), (0.999, column.Last)];
    }

    private static (double Share, double Value)[] Switched(MeasurementColumn column) => Math.Clamp(column.Mean, 0, 1) switch
    {
        0 => [(0, 0)],
        1 => [(0, 1)],
        var on => [(0, 1), (on, 0)],
    };
}
