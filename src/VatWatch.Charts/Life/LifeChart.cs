using ScottPlot;
using SkiaSharp;
using VatWatch.Calibration;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Recipes.Panels;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Reports.Pdf;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Life;

/// <summary>The chart and the tables of a vat's life.</summary>
internal static class LifeChart
{
    // So that the first and the last dot do not lie on the frame.
    private const double AirShare = 0.03;
    private static readonly TimeSpan LeastAir = TimeSpan.FromDays(1);

    /// <summary>Chart and tables; times in <paramref name="zone"/>.</summary>
    public static TabledChart Of(VatLife life, TimeZoneInfo zone)
    {
        DateTimeOffset[] moments = [.. life.Sessions.Select(one => one.Session.Started.Utc), .. life.Calibrations.Select(one => one.Utc)];
        var (first, last) = moments.Length == 0 ? (DateTimeOffset.UnixEpoch, DateTimeOffset.UnixEpoch) : (moments.Min(), moments.Max());
        var air = (last - first) * AirShare is var share && share > LeastAir ? share : LeastAir;
        var record = new VatRecord(life.Vat, life.Units, first - air, last + air, [], []);
        var panels = LifePanels.Of(life, record);
        var below = moments.Length == 0 ? "no session yet" : $"{life.Sessions.Count} sessions and {life.Calibrations.Count} calibrations, {Day(first, zone)} to {Day(last, zone)}";
        return new TabledChart
        {
            Title = $"The life of {life.Vat.Name}",
            Below = below,
            Draw = (canvas, size, withTitle) => Draw(record, panels, zone, $"The life of {life.Vat.Name}", below, size, canvas, withTitle),
            Tables = [Sessions(life, zone), Electrodes(life, zone)],
            Phone = ChartSize.Phone with { Height = Math.Max(ChartSize.Phone.Height, 60 + 135 * panels.Count) },
            Paper = PaperSize.UsualWith(life.Units),
        };
    }

    private static void Draw(
        VatRecord record, IReadOnlyList<ValuePanel> panels, TimeZoneInfo zone, string title, string below, ChartSize size, SKCanvas canvas, bool withTitle)
    {
        var frame = new ChartFrame(size, new TimeWindow(record.From, record.To, zone));
        using var lettering = Lettering.OnPaper(canvas, size);
        var top = withTitle ? ChartTitle.Draw(frame, lettering, title, below) : 0;
        var bottom = size.Height - ChartFoot.Height(frame, KeyEntries.None);
        if (panels.Count > 0)
            PanelStack.Draw(panels, null, frame, record, lettering, new PixelRect(0, size.Width, bottom, top));
        ChartFoot.Draw(frame, lettering, bottom, KeyEntries.None);
    }

    private static ReportTable Sessions(VatLife life, TimeZoneInfo zone) => new(
        "Sessions",
        ["Session", "State at the start", "Liquor", "pH", "ORP", "Margin", "Dips", "Yarn", "Soda ash", "Reducing agent", "Came out"],
        [
            .. life.Sessions.Select(one => (string[])
            [
                $"{Day(one.Session.Started.Utc, zone)}",
                one.AtStart?.State.Word() ?? "",
                one.AtStart?.TemperatureC is { } temperature ? Words.Unbroken(life.Units.Temperature(temperature)) : "",
                one.AtStart?.Ph is { } ph ? Words.Number(ph, 2) : "",
                one.AtStart?.OrpMillivolts is { } orp ? $"{Words.Number(orp, 0)}\u00a0mV" : "",
                one.AtStart?.Margin is { } margin ? $"{Words.Number(margin.Millivolts, 0)}\u00a0mV" : "",
                Words.Number(one.Tally.Dips.Count, 0),
                one.Session.Details.YarnGrams is { } yarn ? Words.Unbroken(life.Units.Goods(yarn)) : "",
                Added(life, one, Material.SodaAsh),
                Added(life, one, Material.ReducingAgent),
                one.Session.Details.Verdict?.Word() ?? "",
            ]),
        ])
    {
        Note = "What was added counts from the end of the session before.",
    };

    private static string Added(VatLife life, LifeSession session, Material material) =>
        session.Tally.Added.TryGetValue(material, out var amount) ? Words.Unbroken(material.Amount(amount, life.Units)) : "";

    private static ReportTable Electrodes(VatLife life, TimeZoneInfo zone) => new(
        "Electrodes",
        ["Calibrated", "Probe", "Slope", "Offset"],
        [
            .. life.Calibrations.Select(one => (string[])
            [
                Day(one.Utc, zone),
                one.Probe.Value,
                one.Calibration is PhCalibration ph ? $"{Words.Number(ph.Line.SlopePercent, 1)}\u00a0%" : "",
                one.Calibration switch
                {
                    PhCalibration glass => $"{Words.Number(glass.Line.OffsetMillivolts, 1)}\u00a0mV",
                    OrpCalibration metal => $"{Words.Number(metal.Offset.Millivolts, 1)}\u00a0mV",
                    _ => "",
                },
            ]),
        ]);

    private static string Day(DateTimeOffset utc, TimeZoneInfo zone) => TimeZoneInfo.ConvertTime(utc, zone).ToString("d MMM yyyy");
}
