using VatWatch.Alarms.Journal;
using VatWatch.Calibration;
using VatWatch.Charts.Traces;
using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Stored;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Store;

namespace VatWatch.Charts;

/// <summary>
/// Loads from the store all that a report is made of: measurements, alarms, entries, calibrations, and the conditions worked out anew. For the verb and the page
/// alike. Holds a bounded number of values whatever the span.
/// </summary>
public static class StoredRecord
{
    /// <summary>The night before a session belongs to its story: warming takes hours.</summary>
    public static TimeSpan NightBefore { get; } = TimeSpan.FromHours(14);

    /// <summary>What comes after it: how the vat settles.</summary>
    public static TimeSpan After { get; } = TimeSpan.FromMinutes(30);

    /// <summary>Longer spans are read in columns instead of readings.</summary>
    public static TimeSpan LongestOfReadings { get; } = TimeSpan.FromDays(14);

    /// <summary>Two columns a pixel of a page; a year in columns of some hours.</summary>
    private const int Columns = 1400;

    /// <summary>More columns than a phone's picture has points across.</summary>
    private const int PictureColumns = 700;

    /// <summary>From here on columns of a picture are wide enough to be made of rollups.</summary>
    private static readonly TimeSpan LongestPictureOfReadings = TimeSpan.FromHours(24);

    // The store rounds columns of this width up to whole quarter hours.
    private static readonly TimeSpan Quarter = TimeSpan.FromMinutes(15);

    /// <summary>The record of a session, with the night before it and the half hour after, as far as no other session reaches into them; null when there is no such session.</summary>
    public static VatRecord? OfSession(StoreReader reader, VatDefinition vat, DisplayUnits units, SessionId id)
    {
        if (SessionTable.Find(reader, vat.Id, id) is not { } session)
            return null;
        var span = reader.Span(vat.Id);
        var end = session.Ended ?? span?.Last ?? session.Started.Utc;
        var from = session.Started.Utc - NightBefore;
        var others = SessionTable.Newest(reader, vat.Id, int.MaxValue).Where(other => other.Id != id).ToList();
        var before = others.Where(other => other.Ended <= session.Started.Utc).Select(other => other.Ended).Max();
        from = before > from ? before.Value : from;
        var to = session.Ended is null ? end : end + After < span?.Last ? end + After : Later(end, span?.Last);
        var next = others.Where(other => other.Started.Utc >= end).Select(other => (DateTimeOffset?)other.Started.Utc).Min();
        to = next < to ? next.Value.AddTicks(-1) : to;
        var record = Between(reader, vat, units, from, to < session.Started.Utc ? session.Started.Utc : to) with { Session = session, Planned = PlanOutcome.Read(reader, vat, session) };
        return record with { From = FirstSign(record) };
    }

    /// <summary>
    /// The record of a session from its beginning to its end and no more, though what is said of its first minutes rests on the hours before; null when there is
    /// no such session.
    /// </summary>
    public static VatRecord? OfSessionAlone(StoreReader reader, VatDefinition vat, DisplayUnits units, SessionId id)
    {
        if (OfSession(reader, vat, units, id) is not { Session: { } session } record)
            return null;
        var (from, to) = session.Span(record.To);
        return record with
        {
            From = from,
            To = to,
            Measurements = [.. record.Measurements.Where(reading => reading.Stamp.Utc >= from && reading.Stamp.Utc <= to)],
            Entries = [.. record.Entries.Where(entry => entry.At.Utc >= from && entry.At.Utc <= to)],
        };
    }

    public static VatRecord Between(StoreReader reader, VatDefinition vat, DisplayUnits units, DateTimeOffset from, DateTimeOffset to)
    {
        var isLong = to - from > LongestOfReadings;
        var entries = EntryTable.Between(reader, vat.Id, from, to.AddTicks(1));
        var record = new VatRecord(vat, units, from, to, [], AlarmJournal.Changes(reader, vat.Id, from, to)) { Entries = entries, Calibrations = Calibrations(reader, vat) };
        if (isLong)
            return SummedUp(reader, record);
        var earlier = LearnedHeatTable.All(reader).GetValueOrDefault(vat.Id);
        var measurements = new List<Measurement>();
        var conditions = ConditionTrace.Of(vat, units, Kept(ReadAhead.Of(reader.Measurements(vat.Id, from, to.AddTicks(1))), measurements), to - from, entries, earlier);
        return record with { Measurements = measurements, Conditions = conditions };
    }

    /// <summary>What a small picture of a stretch of time shows: its readings or, of a long one, their columns, and alarms; no entries and no conditions.</summary>
    public static VatRecord ForPicture(StoreReader reader, VatDefinition vat, DisplayUnits units, DateTimeOffset from, DateTimeOffset to)
    {
        IReadOnlyList<Measurement> measurements = to - from < LongestPictureOfReadings ? [.. reader.Measurements(vat.Id, from, to)] : ReadColumns(reader, vat, from, to, PictureColumns);
        return new(vat, units, from, to, measurements, AlarmJournal.Changes(reader, vat.Id, from, to));
    }

    /// <summary>Calibrations of a vat's probes that this version can read, in order of their rows.</summary>
    public static IReadOnlyList<DatedCalibration> Calibrations(StoreReader reader, VatDefinition vat)
    {
        var probes = vat.Probes.Select(probe => probe.Id).ToHashSet();
        return
        [
            .. CalibrationTable.All(reader)
                .Where(stored => probes.Contains(stored.Probe))
                .Select(stored => CalibrationDocument.TryRead(stored.Json, out var calibration, out _) ? new DatedCalibration(stored.Id, stored.Probe, stored.Utc, calibration) : null)
                .OfType<DatedCalibration>(),
        ];
    }

    private static IEnumerable<Measurement> Kept(IEnumerable<Measurement> readings, List<Measurement> into)
    {
        foreach (var reading in readings)
        {
            into.Add(reading);
            yield return reading;
        }
    }

    // Nothing is told of time before the first reading or entry: the daemon did not run.
    private static DateTimeOffset FirstSign(VatRecord record) => record.Measurements.Take(1).Select(reading => reading.Stamp.Utc)
        .Concat(record.Entries.Take(1).Select(entry => entry.At.Utc))
        .Append(record.Session!.Started.Utc).Min();

    private static DateTimeOffset Later(DateTimeOffset end, DateTimeOffset? last) => last > end ? last.Value : end;

    private static VatRecord SummedUp(StoreReader reader, VatRecord record)
    {
        var (vat, from, to) = (record.Vat, record.From, record.To);
        var measurements = ReadColumns(reader, vat, from, to, Columns);
        var column = Quarter * Math.Ceiling((to - from) / Columns / Quarter);
        return record with
        {
            Measurements = measurements,
            SummedUpBy = column,
            SummedUpLooks = StoredLooks.Of(ConditionTable.States(reader, vat.Id, from, to), measurements, from, to, column),
        };
    }

    private static Measurement[] ReadColumns(StoreReader reader, VatDefinition vat, DateTimeOffset from, DateTimeOffset to, int columns)
    {
        var read = reader.Columns(vat.Id, from, to, columns, _ => (to - from) / columns);
        return [.. vat.Probes.SelectMany(probe => read.GetValueOrDefault(probe.Id, []).SelectMany(column => ColumnReadings.Of(probe, column))).OrderBy(reading => reading.Stamp.Utc)];
    }
}
