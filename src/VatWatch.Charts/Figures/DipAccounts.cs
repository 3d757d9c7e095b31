using VatWatch.Charts.Traces;
using VatWatch.Conditions.Reduction;
using VatWatch.Measurements;

namespace VatWatch.Charts.Figures;

/// <summary>Works out what each dip of a record did to the vat.</summary>
internal static class DipAccounts
{
    private static readonly TimeSpan Before = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan After = TimeSpan.FromMinutes(30);

    /// <summary>The dips in order; empty without any.</summary>
    public static IReadOnlyList<DipAccount> Of(VatRecord record, IReadOnlyList<ProbeTrace> traces)
    {
        var orp = traces.FirstOrDefault(trace => trace.Quantity == Quantity.Orp)?.Readings ?? [];
        // Every look repeats the recoveries so far; a sharpening clears them, and what went before is in the looks before.
        var recoveries = record.Conditions.SelectMany(condition => condition.Recoveries).DistinctBy(recovery => recovery.At.Utc).OrderBy(recovery => recovery.At.Utc).ToArray();
        var dips = record.Dips;
        return [.. dips.Select((dip, i) => Account(record, orp, recoveries, i, i + 1 < dips.Count ? dips[i + 1].In.Utc : record.To))];
    }

    private static DipAccount Account(VatRecord record, IReadOnlyList<Measurement> orp, Recovery[] recoveries, int index, DateTimeOffset next)
    {
        var dip = record.Dips[index];
        var start = dip.In.Utc;
        var end = (dip.Out?.Utc ?? next) + After is var settled && settled < next ? settled : next;
        var during = Good(orp, start, end);
        return new DipAccount
        {
            Number = index + 1,
            Dip = dip,
            AtIn = record.Conditions.LastOrDefault(condition => condition.Stamp.Utc <= start && condition.Stamp.Utc >= start - Before),
            OrpBefore = Median(Good(orp, start - Before, start)),
            OrpHighest = during.Count > 0 ? during.Max() : null,
            OrpAfter = dip.Out is { } taken && end - Before > start ? Median(Good(orp, end - Before > taken.Utc ? end - Before : taken.Utc, end)) : null,
            Recovery = Array.FindLast(recoveries, recovery => recovery.At.Utc >= start - TimeSpan.FromMinutes(3) && recovery.At.Utc < next),
        };
    }

    private static List<double> Good(IReadOnlyList<Measurement> readings, DateTimeOffset from, DateTimeOffset to) =>
        [.. readings.Where(reading => reading.Stamp.Utc >= from && reading.Stamp.Utc < to && reading.GoodValue is not null).Select(reading => reading.GoodValue!.Value)];

    private static double? Median(List<double> values)
    {
        if (values.Count == 0)
            return null;
        values.Sort();
        return (values[(values.Count - 1) / 2] + values[values.Count / 2]) / 2;
    }
}
