using VatWatch.Calibration;
using VatWatch.Charts.Figures;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Traces;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Reports.Content;

/// <summary>The tables of a session: dips, what was added and noted, and how far the probes could be trusted.</summary>
internal sealed class SessionTables(VatRecord record, TimeWindow window)
{
    /// <summary>Those that have rows.</summary>
    public IReadOnlyList<ReportTable> Of(IReadOnlyList<ProbeTrace> traces, IReadOnlyList<DipAccount> dips) =>
        [.. new[] { Dips(dips), Ledger(), Probes(traces) }.Where(table => table.Rows.Count > 0)];

    private ReportTable Dips(IReadOnlyList<DipAccount> dips) => new(
        "Dips",
        ["", "In – out", "Liquor", "pH", "Margin", "ORP before", "highest", "after", "Recovery"],
        [.. dips.Select(Row)])
    {
        Note = "ORP in mV: median of the 10 min before, highest until 30 min after, and median of the last 10 min of those, or until the next dip. Recovery counts from when the yarn was last put in or taken out until ORP was back.",
    };

    private string[] Row(DipAccount dip) =>
    [
        $"dip {Words.Number(dip.Number, 0)}",
        $"{window.Moment(dip.Dip.In.Utc)} – {(dip.Dip is { Out: { } taken, Length: { } length } ? $"{window.Moment(taken.Utc)}, {Words.Unbroken(DisplayUnits.Duration(length))}" : "still in")}",
        dip.AtIn?.TemperatureC is { } temperature ? Words.Unbroken(record.Units.Temperature(temperature)) : "",
        dip.AtIn?.Ph is { } ph ? Words.Number(ph, 2) : "",
        dip.AtIn?.Margin is { } margin ? Words.Unbroken($"{Words.Number(margin.Millivolts, 0)} mV") : "",
        Orp(dip.OrpBefore),
        Orp(dip.OrpHighest),
        Orp(dip.OrpAfter),
        dip.Recovery switch
        {
            null => "not told",
            { Time: { } time } => Words.Unbroken(DisplayUnits.Duration(time)),
            _ => "did not come back",
        },
    ];

    private static string Orp(double? millivolts) => millivolts is { } known ? Words.Number(known, 0) : "";

    private ReportTable Ledger() => new(
        "Log book",
        ["When", "What", "By"],
        [
            .. record.Standing
                .Where(entry => entry.Kind is not (EntryKind.DipIn or EntryKind.DipOut) || entry.Text is { Length: > 0 })
                .OrderBy(entry => entry.At.Utc)
                .Select(entry => (string[])[window.Moment(entry.At.Utc), OneLine.Of(entry.Line(record.Units, window.Zone)), OneLine.Of(entry.By)]),
        ]);

    private ReportTable Probes(IReadOnlyList<ProbeTrace> traces) => new(
        "Probes",
        ["Probe", "Good", "Doubtful", "No answer", "Fault", "Calibration used"],
        record.SummedUpBy is not null ? [] :
        [
            .. traces.Select(trace => ProbeHealth.Of(trace, record.Calibrations)).Select(health => (string[])
            [
                $"{health.Probe} ({health.Quantity.Word()})",
                Percent(health.Good),
                Percent(health.Suspect),
                Percent(health.Missing),
                Percent(health.Fault),
                Calibration(health),
            ]),
        ]);

    // A share that is there but rounds to nothing must not read as none.
    private static string Percent(double share) => share switch
    {
        0 => "–",
        < 0.001 => "<\u00a00.1\u00a0%",
        > 0.999 and < 1 => ">\u00a099.9\u00a0%",
        _ => $"{Words.Number(100 * share, 1)}\u00a0%",
    };

    private string Calibration(ProbeHealth health) => health switch
    {
        { CalibrationRow: null } => health.Quantity is Quantity.Ph or Quantity.Orp ? "the instrument's own" : "none",
        { Calibration: { Calibration: PhCalibration ph } dated } =>
            $"{Day(dated)}: slope {Words.Number(ph.Line.SlopePercent, 1)} %, offset {Words.Number(ph.Line.OffsetMillivolts, 1)} mV, {ph.Points.Count} {(ph.Points.Count == 1 ? "buffer" : "buffers")}",
        { Calibration: { Calibration: OrpCalibration orp } dated } => $"{Day(dated)}: offset {Words.Number(orp.Offset.Millivolts, 1)} mV in {orp.Solution}",
        _ => $"row {Words.Number(health.CalibrationRow!.Value, 0)}, not kept any more",
    };

    private string Day(DatedCalibration dated) => window.Local(dated.Utc).ToString("d MMM yyyy");
}
