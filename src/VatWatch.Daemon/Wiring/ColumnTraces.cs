using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Daemon.Wiring;

/// <summary>
/// Turns the columns of a long span into the few points that a picture can show: of each column first, lowest, highest and last, so that a
/// spike of one reading stands in it. A switched thing is on for the share of the column that it was on.
/// </summary>
internal static class ColumnTraces
{
    /// <summary>The points of one probe in order of time. They are for drawing only: their times lie where they look right within their column.</summary>
    public static IEnumerable<Measurement> Of(VatId vat, ProbeDefinition probe, IReadOnlyList<MeasurementColumn> columns, DateTimeOffset from)
    {
        foreach (var column in columns)
        {
            var quality = column.Worst == Quality.Suspect ? Quality.Suspect : Quality.Good;
            foreach (var (share, value) in probe.Quantity == Quantity.Heater ? Switched(column) : Extremes(column))
            {
                var utc = column.Start + (column.End - column.Start) * share;
                yield return new Measurement(
                    vat, probe.Id, probe.Quantity, new Stamp(utc, utc - from + Day, true), value, value, quality, quality == Quality.Good ? null : "doubtful within this stretch", null);
            }
        }
    }

    private static IEnumerable<(double Share, double Value)> Extremes(MeasurementColumn column)
    {
        yield return (0.125, column.First);
        if (column.Min < Math.Min(column.First, column.Last))
        {
            yield return (0.375, column.Min);
        }

        if (column.Max > Math.Max(column.First, column.Last))
        {
            yield return (0.625, column.Max);
        }

        yield return (0.875, column.Last);
    }

    private static IEnumerable<(double Share, double Value)> Switched(MeasurementColumn column)
    {
        var on = Math.Clamp(column.Mean, 0, 1);
        if (on > 0)
        {
            yield return (0, 1);
        }

        if (on < 1)
        {
            yield return (on, 0);
        }
    }

    /// <summary>A column may begin a little before the span; monotonic times must not be negative.</summary>
    private static readonly TimeSpan Day = TimeSpan.FromDays(1);
}
