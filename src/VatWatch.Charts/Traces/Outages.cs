using VatWatch.Measurements;

namespace VatWatch.Charts.Traces;

/// <summary>Finds the stretches in which a probe gave no value, so that a chart and a report can say so.</summary>
internal static class Outages
{
    /// <summary>The outages of one trace within <paramref name="record"/>, in order of time.</summary>
    public static IReadOnlyList<Outage> Of(ProbeTrace trace, VatRecord record)
    {
        var found = new List<Outage>();
        var readings = trace.Readings;
        AddSilence(found, trace, record.From, readings[0].Stamp.Utc, readings[0].Stamp.Utc - record.From);
        for (var i = 0; i < readings.Count;)
        {
            var kind = KindOf(readings[i]);
            var end = i + 1;
            while (end < readings.Count && KindOf(readings[end]) == kind && !IsGap(trace, readings[end - 1], readings[end]))
                end++;
            if (kind is { } outage)
                AddStretch(found, trace, record, outage, i, end);
            if (end < readings.Count && IsGap(trace, readings[end - 1], readings[end]))
                AddSilence(found, trace, readings[end - 1].Stamp.Utc, readings[end].Stamp.Utc, Step(readings[end - 1], readings[end]));
            i = end;
        }

        AddSilence(found, trace, readings[^1].Stamp.Utc, record.To, record.To - readings[^1].Stamp.Utc);
        return found;
    }

    private static OutageKind? KindOf(Measurement reading) => reading.Quality switch
    {
        Quality.Missing => OutageKind.NoAnswer,
        Quality.Fault => OutageKind.Fault,
        _ when !TraceRuns.HasValue(reading, out _) => OutageKind.NoAnswer,
        _ => null,
    };

    private static TimeSpan Step(Measurement before, Measurement after) => Elapsed.Between(before.Stamp, after.Stamp);

    private static bool IsGap(ProbeTrace trace, Measurement before, Measurement after) => Step(before, after) > trace.LongestStep;

    private static void AddSilence(List<Outage> found, ProbeTrace trace, DateTimeOffset from, DateTimeOffset to, TimeSpan length)
    {
        if (length > trace.LongestStep)
            found.Add(new Outage(trace.Probe, OutageKind.NoRecord, from, to, length, 0, null, true));
    }

    // Readings [first, end) say so; the stretch lasts until the next reading, unless that is beyond a gap.
    private static void AddStretch(List<Outage> found, ProbeTrace trace, VatRecord record, OutageKind kind, int first, int end)
    {
        var readings = trace.Readings;
        var length = TimeSpan.Zero;
        for (var i = first + 1; i < end; i++)
            length += Step(readings[i - 1], readings[i]);
        var to = readings[end - 1].Stamp.Utc;
        if (end < readings.Count && !IsGap(trace, readings[end - 1], readings[end]))
        {
            length += Step(readings[end - 1], readings[end]);
            to = readings[end].Stamp.Utc;
        }
        else if (end == readings.Count && record.To - to <= trace.LongestStep)
        {
            length += record.To - to;
            to = record.To;
        }

        found.Add(new Outage(
            trace.Probe, kind, readings[first].Stamp.Utc, to, length, end - first, readings[first].Reason, length > trace.LongestStep));
    }
}

/// <summary>Why there is no value.</summary>
internal enum OutageKind
{
    NoRecord,

    /// <summary>The probe was asked and gave nothing.</summary>
    NoAnswer,

    /// <summary>The probe or its bus reported a fault.</summary>
    Fault,
}

/// <summary>A stretch without a value of one probe.</summary>
/// <param name="Kind">Why.</param>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC: the next reading of another kind, or the end of the record.</param>
/// <param name="Length">How long, by the steadier of the two clocks.</param>
/// <param name="Readings">Readings that said so; 0 when nothing was recorded.</param>
/// <param name="Reason">The first of their reasons; null when nothing was recorded.</param>
/// <param name="IsLong">Whether it is longer than a line may bridge.</param>
internal sealed record Outage(
    ProbeId Probe, OutageKind Kind, DateTimeOffset From, DateTimeOffset To, TimeSpan Length, int Readings, string? Reason, bool IsLong);
