using VatWatch.Charts.Traces;
using VatWatch.Measurements;
using VatWatch.Sessions;

namespace VatWatch.Charts.Compare;

/// <summary>Sessions laid over each other so that their first dips fall together.</summary>
internal sealed class SessionOverlay
{
    /// <summary>The moment on which all first dips fall; any would do.</summary>
    public static DateTimeOffset Zero { get; } = new(2000, 1, 2, 0, 0, 0, TimeSpan.Zero);

    private static readonly TimeSpan Bucket = TimeSpan.FromMinutes(5);

    private SessionOverlay(VatRecord together, IReadOnlyList<ProbeTrace> margins, IReadOnlyList<(string Name, IReadOnlyList<Dip> Dips)> dips)
    {
        Together = together;
        Margins = margins;
        Dips = dips;
    }

    /// <summary>All sessions as one record in which each session is a probe of its name.</summary>
    public VatRecord Together { get; }

    /// <summary>Their margins of reduction, as far as known.</summary>
    public IReadOnlyList<ProbeTrace> Margins { get; }

    public IReadOnlyList<(string Name, IReadOnlyList<Dip> Dips)> Dips { get; }

    /// <summary>Lays sessions over each other. The band and the thresholds are those of the first.</summary>
    public static SessionOverlay Of(IReadOnlyList<(string Name, VatRecord Record)> sessions)
    {
        var moved = sessions.Select(session => (session.Name, session.Record, By: Zero - FirstDip(session.Record))).ToArray();
        var first = sessions[0].Record;
        var together = new VatRecord(
            first.Vat,
            first.Units,
            moved.Min(session => session.Record.From + session.By),
            moved.Max(session => session.Record.To + session.By),
            [.. moved.SelectMany(session => Chief(session.Record).Select(reading => Moved(reading, session.Name, session.By)))],
            []);
        ProbeTrace[] margins =
        [
            .. moved.Select(session => MarginTrace.Of(session.Record) is { } margin
                ? ProbeTrace.Made(new ProbeId(session.Name), Quantity.Orp, [.. Smooth(margin, Bucket).Select(reading => Moved(reading, session.Name, session.By))])
                : null).OfType<ProbeTrace>(),
        ];
        return new SessionOverlay(together, margins, [.. moved.Select(session => (session.Name, Moved(session.Record.Dips, session.By)))]);
    }

    private static DateTimeOffset FirstDip(VatRecord record) => record.Dips is [var first, ..] ? first.In.Utc : record.Session?.Started.Utc ?? record.From;

    // One probe of each kind: two thermometers of each session would be a tangle.
    private static IEnumerable<Measurement> Chief(VatRecord record) => ProbeTrace.Of(record)
        .Where(trace => trace.Quantity is Quantity.Temperature or Quantity.Ph or Quantity.Orp)
        .GroupBy(trace => trace.Quantity)
        .SelectMany(kind => Smooth(kind.First(), Bucket));

    // A line of a hundred readings a millimetre has no pattern to be told by: means of a few minutes, where there are good readings.
    private static IEnumerable<Measurement> Smooth(ProbeTrace trace, TimeSpan bucket) => trace.UsualPeriod >= bucket
        ? trace.Readings
        : trace.Readings.Where(reading => reading.GoodValue is not null)
            .GroupBy(reading => reading.Stamp.Utc.Ticks / bucket.Ticks)
            .Select(group => group.First() with { Value = group.Average(reading => reading.GoodValue!.Value) });

    private static Measurement Moved(Measurement reading, string name, TimeSpan by) =>
        reading with { Probe = new ProbeId(name), Stamp = reading.Stamp with { Utc = reading.Stamp.Utc + by } };

    private static IReadOnlyList<Dip> Moved(IReadOnlyList<Dip> dips, TimeSpan by) =>
        [.. dips.Select(dip => new Dip(dip.In with { Utc = dip.In.Utc + by }, dip.Out is { } taken ? taken with { Utc = taken.Utc + by } : null))];
}
