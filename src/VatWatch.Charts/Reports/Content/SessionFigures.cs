using VatWatch.Charts.Figures;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Reports.Content;

/// <summary>The figures of a session in words: what the tables of a report hold.</summary>
internal sealed class SessionFigures
{
    private readonly VatRecord _record;
    private readonly TimeWindow _window;
    private readonly IReadOnlyList<ProbeTrace> _traces;

    /// <summary>Works out the figures of <paramref name="record"/>; times are written in <paramref name="zone"/>.</summary>
    public SessionFigures(VatRecord record, TimeZoneInfo zone)
    {
        _record = record;
        _window = new TimeWindow(record.From, record.To, zone);
        _traces = ProbeTrace.Of(record);
        var dips = DipAccounts.Of(record, _traces);
        Figures =
        [
            .. WorkFigures.Work(record), .. WorkFigures.Planned(record, zone), .. TemperatureFigures(), .. HeaterFigures(), .. WorkFigures.Heat(record, _traces), .. PhFigures(), .. OrpFigures(),
        ];
        Tables = new SessionTables(record, _window).Of(_traces, dips);
        Suggestions = record.Conditions.Count == 0 ? [] : NextTime.Of(NextTimeReading.Of(record, _traces, dips), record.Units);
        Alarms = [.. AlarmEpisodes.Of(record.AlarmChanges).Select(Row)];
        var outages = _traces.SelectMany(trace => Outages.Of(trace, record)).OrderBy(outage => outage.From).ToArray();
        Gaps = [.. SharedOutage.Merge([.. outages.Where(outage => outage.IsLong)], _traces).Select(Row)];
        ShortGaps = outages.Where(outage => !outage.IsLong).Sum(outage => outage.Readings);
    }

    /// <summary>The span, for example "5 Mar 2026 20:00 – 6 Mar 2026 08:00, 12 h".</summary>
    public string Span => _window.SpanText();

    public string Zone => _window.ZoneText();

    /// <summary>The vat in one line.</summary>
    public string Vat => string.Join(" · ", _record.Units.Volume(_record.Vat.VolumeLitres), FibreWords, ReducerText);

    /// <summary>The dyer's work, temperature, heater, pH and ORP.</summary>
    public IReadOnlyList<FigureRow> Figures { get; }

    /// <summary>Dips, log book and probes, as far as there are any.</summary>
    public IReadOnlyList<ReportTable> Tables { get; }

    /// <summary>What the figures suggest for next time, in sentences; none when the conditions were not worked out.</summary>
    public IReadOnlyList<string> Suggestions { get; }

    /// <summary>The session's name, the wanted shade and how it came out; null without a session.</summary>
    public string? Session => SessionHead.Of(_record);

    /// <summary>That a long span was summed up, and how; null for a record of readings.</summary>
    public string? SummedUp => _record.SummedUpBy is { } column
        ? $"This span is long, so it is drawn and summed up from columns of {Length(column)}, each by its first, lowest, highest and last value: no peak is lost, and times are good to about a column. {KeptLooks}"
        : null;

    private string KeptLooks => _record.SummedUpLooks.Count > 0
        ? "The state of a column is the one that held longest in it, its margin of reduction the weakest, both as they were kept at the time."
        : "No states were kept for this time, so states and margin are left out.";

    /// <summary>Alarms in order of entering.</summary>
    public IReadOnlyList<AlarmRow> Alarms { get; }

    /// <summary>Stretches without values that are too long for a line to bridge, in order of time.</summary>
    public IReadOnlyList<GapRow> Gaps { get; }

    /// <summary>Single readings without a value beside <see cref="Gaps"/>.</summary>
    public int ShortGaps { get; }

    /// <summary>When a photograph was taken and what it shows.</summary>
    public string Caption(ReportPhoto photo) => photo.Caption.Length > 0 ? $"{_window.Moment(photo.At)}: {photo.Caption}" : _window.Moment(photo.At);

    private string FibreWords => _record.Vat.Fibre == Fibre.Protein ? "wool, silk or hair" : "cotton, linen or other plant fibre";

    private string ReducerText => _record.Vat.Reducer switch
    {
        ReducingAgent.ThioureaDioxide => "thiourea dioxide",
        ReducingAgent.Dithionite => "sodium dithionite",
        ReducingAgent.Fructose => "fructose and lime",
        ReducingAgent.Fermentation => "fermentation",
        var other => throw new InvalidOperationException($"reducing agent {other} has no words"),
    };

    private IEnumerable<ProbeTrace> Measuring(Quantity measures) => _traces.Where(trace => trace.Quantity == measures);

    private IEnumerable<FigureRow> TemperatureFigures()
    {
        var (units, band) = (_record.Units, _record.Vat.Temperature);
        foreach (var trace in Measuring(Quantity.Temperature))
        {
            var of = Of(trace, "liquor");
            if (Extremes.Of(trace) is not { } extremes)
            {
                yield return new FigureRow($"Temperature of the {of}", "no good reading");
                continue;
            }

            var steps = GoodStep.Of(trace);
            var inBand = TimeInBand.Of(steps, band.LowC, band.HighC);
            var above = TimeAbove.Of(steps, band.LimitC);
            yield return new FigureRow($"Temperature of the {of}, start and end", $"{Temperature(extremes.First)} → {Temperature(extremes.Last)}");
            yield return new FigureRow("Highest", $"{Temperature(extremes.Highest)} at {_window.Moment(extremes.HighestAt)}");
            yield return new FigureRow($"In the band, {Temperature(band.LowC)} to {Temperature(band.HighC)}", Share(inBand.Inside, inBand.Known));
            yield return new FigureRow($"At or above the limit, {Temperature(band.LimitC)}", LengthOrNever(above.Time));
            yield return new FigureRow(
                "Degree-minutes above the limit", $"{Words.Number(units.FromKelvinDifference(above.ValueMinutes), 0)}\u00a0{units.TemperatureUnit}·min");
        }
    }

    private IEnumerable<FigureRow> HeaterFigures() =>
        Measuring(Quantity.Heater).Select(trace => new FigureRow(
            trace == Measuring(Quantity.Heater).First() ? "Heater on" : $"Heater on ({trace.Probe})", Length(OnStretches.Of(trace).Total)));

    private IEnumerable<FigureRow> PhFigures()
    {
        foreach (var trace in Measuring(Quantity.Ph))
        {
            if (Extremes.Of(trace) is not { } extremes)
            {
                yield return new FigureRow(Of(trace, "pH"), "no good reading");
                continue;
            }

            yield return new FigureRow($"{Of(trace, "pH")}, start and end", $"{Words.Number(extremes.First, 2)} → {Words.Number(extremes.Last, 2)}");
            yield return new FigureRow("pH drift", Drift.PerHour(trace) is { } drift ? $"{Words.Number(drift, 3)} per hour" : "too few readings");
            if (_record.Vat.Ph is { } band && TimeInBand.Of(GoodStep.Of(trace), band.Low, band.High) is var inBand)
                yield return new FigureRow($"In the band, pH {Words.Number(band.Low, 2)} to {Words.Number(band.High, 2)}", Share(inBand.Inside, inBand.Known));
        }
    }

    private IEnumerable<FigureRow> OrpFigures()
    {
        foreach (var trace in Measuring(Quantity.Orp))
        {
            if (Extremes.Of(trace) is not { } extremes)
            {
                yield return new FigureRow(Of(trace, "ORP"), "no good reading");
                continue;
            }

            yield return new FigureRow(
                $"{Of(trace, "ORP")}: lowest, median, highest",
                $"{Words.Number(extremes.Lowest, 0)}, {Words.Number(extremes.Median, 0)}, {Words.Number(extremes.Highest, 0)} mV");
            if (_record.Vat.Orp is not { } limits)
                continue;
            var steps = GoodStep.Of(trace);
            yield return new FigureRow(
                $"Weak, above {Words.Number(limits.WeakMillivolts, 0)}\u00a0mV", LengthOrNever(TimeAbove.Of(steps, limits.WeakMillivolts).Time));
            yield return new FigureRow(
                $"Oxidised, above {Words.Number(limits.OxidisedMillivolts, 0)}\u00a0mV",
                LengthOrNever(TimeAbove.Of(steps, limits.OxidisedMillivolts).Time));
        }
    }

    // The chief probe needs no name; a second one of its kind does.
    private string Of(ProbeTrace trace, string what) => trace == Measuring(trace.Quantity).First() ? what : $"{what} ({trace.Probe})";

    private string Temperature(double temperatureC) => Words.Unbroken(_record.Units.Temperature(temperatureC));

    private static string Length(TimeSpan time) => Words.Unbroken(DisplayUnits.Duration(time));

    private static string LengthOrNever(TimeSpan time) => time > TimeSpan.Zero ? Length(time) : "never";

    private static string Share(TimeSpan part, TimeSpan known) => known == TimeSpan.Zero
        ? "not known"
        : $"{Length(part)}, {Words.Number(part / known * 100, 0)}\u00a0% of {Length(known)} known";

    private AlarmRow Row(AlarmEpisode episode)
    {
        var by = episode.AcknowledgedBy is { } name ? $" by {name}" : "";
        return new AlarmRow(
            episode.Alarm.Value,
            episode.Priority.Word(),
            episode.Text.In(_record.Units),
            _window.Moment(episode.Entered.Utc),
            episode is { Acknowledged: { } seen, TimeToAcknowledge: { } after }
                ? $"{_window.Moment(seen.Utc)}{by}, after {Length(after)}"
                : "not acknowledged",
            episode.Returned is { } returned ? $"over {_window.Moment(returned.Utc)}"
                : episode.SetAside is { } aside ? $"set aside {_window.Moment(aside.Utc)}" : "still on");
    }

    private GapRow Row(SharedOutage shared)
    {
        var outage = shared.Longest;
        return new GapRow(
            shared.Probes.Count > 1 && shared.Probes.Count == _traces.Count ? "all probes" : string.Join(", ", shared.Probes),
            outage.Kind switch { OutageKind.NoRecord => "no record", OutageKind.NoAnswer => "no answer", _ => "fault" },
            _window.Moment(outage.From),
            _window.Moment(outage.To),
            Length(outage.Length),
            _record.Units.Words(outage.Reason ?? ""));
    }
}

/// <summary>One standing of an alarm, as a report tells it.</summary>
/// <param name="Alarm">Its name.</param>
/// <param name="Text">What it said.</param>
/// <param name="Acknowledged">When, by whom and after how long it was acknowledged, or that it was not.</param>
/// <param name="Ended">When it returned or was set aside, or that it still stands.</param>
internal sealed record AlarmRow(string Alarm, string Priority, string Text, string Entered, string Acknowledged, string Ended);

/// <summary>One stretch without values, as a report tells it.</summary>
/// <param name="What">"no record", "no answer" or "fault".</param>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
/// <param name="Reason">The first reason given; empty when nothing was recorded.</param>
internal sealed record GapRow(string Probe, string What, string From, string To, string Length, string Reason);

/// <summary>One figure of a report, in words and in the dyer's units.</summary>
/// <param name="Label">What it is, for example "Highest liquor temperature".</param>
/// <param name="Value">The figure with its unit.</param>
internal sealed record FigureRow(string Label, string Value);
