using VatWatch.Alarms.Journal;
using VatWatch.Charts.Figures;
using VatWatch.Daemon.Web.Vats.Figures;
using VatWatch.Sessions.Entries;
using VatWatch.Store.Series;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>Sums up what the store has of one vat in a stretch of time: columns of each probe, and what happened.</summary>
internal sealed class StoredTraces(StoreReader reader, VatDefinition vat, DisplayUnits units, TimeZoneInfo zone)
{
    /// <summary>More marks than this cannot be told apart in a drawing; the newest are kept.</summary>
    private const int MostMarks = 300;

    private static readonly TimeSpan LeastGap = TimeSpan.FromSeconds(15);

    public VatTraces Read(ChartWindow window, int columns, DateTimeOffset now)
    {
        var recorded = Columns(window, window.To < now ? window.To : now, columns);
        return new(
            window.From,
            window.To,
            [.. vat.Probes.Select(probe => new ProbeColumns(probe, recorded.GetValueOrDefault(probe.Id, [])))],
            [.. Entries(window).Concat(Alarms(window)).Concat(Calibrations(window)).OrderBy(mark => mark.At).TakeLast(MostMarks)]);
    }

    private IReadOnlyDictionary<ProbeId, IReadOnlyList<MeasurementColumn>> Columns(ChartWindow window, DateTimeOffset to, int columns)
    {
        var recorded = (to - window.From) / (window.To - window.From);
        var share = Math.Max(1, (int)(columns * Math.Clamp(recorded, 0, 1)));
        var gaps = vat.Probes.ToDictionary(probe => probe.Id, probe => 3 * probe.Every);
        return reader.Columns(vat.Id, window.From, to, share, probe => gaps.GetValueOrDefault(probe) is var gap && gap > LeastGap ? gap : LeastGap);
    }

    private IEnumerable<ChartMark> Entries(ChartWindow window) => EntryTable.Between(reader, vat.Id, window.From, window.To)
        .Where(entry => entry.Withdrawn is null)
        .Select(entry =>
        {
            var (kind, letter) = Evaluate(entry);
            return new ChartMark(entry.At.Utc, null, kind, letter, $"{entry.Line(units, zone)}, by {entry.By}");
        });

    private IEnumerable<ChartMark> Alarms(ChartWindow window) => AlarmEpisodes.Of(AlarmJournal.Changes(reader, vat.Id, window.From, window.To))
        .Where(episode => episode.Entered.Utc >= window.From)
        .Select(episode => new ChartMark(
            episode.Entered.Utc,
            episode.Returned?.Utc ?? episode.SetAside?.Utc,
            ChartMarkKind.Alarm,
            "!",
            $"{episode.Priority.Word()} alarm {episode.Alarm.Value}: {episode.Text.In(units)}{Seen(episode)}"));

    private static string Seen(AlarmEpisode episode) =>
        episode.TimeToAcknowledge is { } time ? $" Acknowledged {(episode.AcknowledgedBy is { } by ? $"by {by} " : "")}after {DisplayUnits.Duration(time)}." : "";

    private IEnumerable<ChartMark> Calibrations(ChartWindow window) =>
        from probe in vat.Probes
        where probe.Quantity is Quantity.Ph or Quantity.Orp
        from stored in CalibrationTable.Of(reader, probe.Id)
        where stored.Utc >= window.From && stored.Utc < window.To
        select new ChartMark(stored.Utc, null, ChartMarkKind.Calibration, "C", $"{FigureView.Title(probe.Quantity)} probe {probe.Id} calibrated");

    private static (ChartMarkKind Kind, string Letter) Evaluate(SessionEntry entry) => entry.Kind switch
    {
        EntryKind.DipIn => (ChartMarkKind.DipIn, "I"),
        EntryKind.DipOut => (ChartMarkKind.DipOut, "O"),
        EntryKind.Added => (ChartMarkKind.Added, entry.Material switch
        {
            Material.SodaAsh => "S",
            Material.ReducingAgent => "R",
            Material.Stock => "K",
            Material.Water => "W",
            _ => "A",
        }),
        EntryKind.Stirred => (ChartMarkKind.Handled, "T"),
        EntryKind.LidOff or EntryKind.LidOn => (ChartMarkKind.Handled, "L"),
        EntryKind.HeaterOn or EntryKind.HeaterOff => (ChartMarkKind.Handled, "H"),
        _ => (ChartMarkKind.Note, "N"),
    };
}

/// <summary>What was recorded of a vat in one stretch of time, summed up for a drawing.</summary>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC; may lie ahead of now.</param>
/// <param name="Traces">Each probe with its columns, in the order of the configuration.</param>
/// <param name="Marks">What happened, in order of time.</param>
internal sealed record VatTraces(DateTimeOffset From, DateTimeOffset To, IReadOnlyList<ProbeColumns> Traces, IReadOnlyList<ChartMark> Marks);

/// <summary>The columns of one probe.</summary>
/// <param name="Columns">In order of time; those without a value are absent.</param>
internal sealed record ProbeColumns(ProbeDefinition Probe, IReadOnlyList<MeasurementColumn> Columns);
