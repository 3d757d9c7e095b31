using VatWatch.Alarms;
using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Reports.Content;

/// <summary>Takes from a record what <see cref="NextTime"/> asks.</summary>
internal static class NextTimeReading
{
    private static readonly TimeSpan LongOpen = TimeSpan.FromMinutes(60);

    public static NextTimeFacts Of(VatRecord record, IReadOnlyList<ProbeTrace> traces, IReadOnlyList<DipAccount> dips)
    {
        ProbeTrace? Chief(Quantity measures) => traces.FirstOrDefault(trace => trace.Quantity == measures && Extremes.Of(trace) is not null);

        var (liquor, ph, orp) = (Chief(Quantity.Temperature), Chief(Quantity.Ph), Chief(Quantity.Orp));
        var band = record.Vat.Temperature;
        var steps = liquor is null ? [] : GoodStep.Of(liquor);
        var first = dips.Count > 0 ? dips[0].AtIn : null;
        var margins = dips.Where(dip => dip.AtIn?.Margin is not null).Select(dip => (dip.AtIn!.Margin!, dip.Number)).ToArray();
        return new NextTimeFacts
        {
            AboveLimit = TimeAbove.Of(steps, band.LimitC).Time,
            OvershootTime = liquor is null ? null : Overshoot(liquor, band.HighC),
            Oxidised = orp is not null && record.Vat.Orp is { } limits ? TimeAbove.Of(GoodStep.Of(orp), limits.OxidisedMillivolts).Time : TimeSpan.Zero,
            LongOpen = Open(record) >= LongOpen,
            FirstDipAboveLowK = first?.TemperatureC - band.LowC,
            ToBandAtFirstDip = first?.TemperatureC < band.LowC ? first?.Heat?.TimeTo(band.LowC).Forecast?.Middle : null,
            Recoveries = [.. dips.Where(dip => dip.Recovery is not null).Select(dip => dip.Recovery!.Time)],
            WeakestMargin = margins.Length > 0 ? margins.Select(one => (one.Item1.Millivolts, one.Number)).MaxBy(one => one.Millivolts) : null,
            MarginUncertainty = margins.Length > 0 ? margins[0].Item1.UncertaintyMillivolts : 0,
            Ph = ph is null ? null : OverTheWork(record, liquor, ph),
            PhBand = record.Vat.Ph,
            InBand = TimeInBand.Of(steps, band.LowC, band.HighC).Inside,
            Dips = dips.Count,
            StillOn = [.. AlarmEpisodes.Of(record.AlarmChanges).Where(one => one.Stands && one.Priority >= AlarmPriority.Medium && one.Entered.Utc <= record.To).Select(one => one.Alarm.Value).Distinct()],
        };
    }

    // From the first good reading above the band to the hottest one.
    private static TimeSpan? Overshoot(ProbeTrace liquor, double highC)
    {
        var extremes = Extremes.Of(liquor)!;
        return liquor.Readings.FirstOrDefault(reading => reading.GoodValue > highC) is { } left ? extremes.HighestAt - left.Stamp.Utc : null;
    }

    // Over the session, else from when the liquor came into the band: while it warms, pH falls without anything being used up.
    private static (double First, double Last)? OverTheWork(VatRecord record, ProbeTrace? liquor, ProbeTrace ph)
    {
        var from = record.Session?.Started.Utc
            ?? liquor?.Readings.FirstOrDefault(reading => reading.GoodValue >= record.Vat.Temperature.LowC)?.Stamp.Utc ?? record.From;
        var good = ph.Readings.Where(reading => reading.Stamp.Utc >= from && reading.GoodValue is not null).ToArray();
        return good.Length == 0 ? null : (good[0].GoodValue!.Value, good[^1].GoodValue!.Value);
    }

    private static TimeSpan Open(VatRecord record)
    {
        var (open, since) = (TimeSpan.Zero, (Stamp?)null);
        foreach (var entry in record.Standing)
        {
            if (entry.Kind == EntryKind.LidOff)
                since ??= entry.At;
            if (entry.Kind != EntryKind.LidOn || since is not { } off)
                continue;
            open += entry.At.Utc - off.Utc;
            since = null;
        }

        return since is { } still && record.To > still.Utc ? open + (record.To - still.Utc) : open;
    }
}
