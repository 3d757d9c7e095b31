using VatWatch.Charts.Compare;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Tests.Recipes;
using VatWatch.Charts.Tests.Reports;
using VatWatch.Sessions;

namespace VatWatch.Charts.Tests.Compare;

[Trait("Starts", "processes")]
public sealed class SessionComparisonTests : IDisposable
{
    private static readonly VatRecord First = MorningOfDips.Record();

    // The same a week later, two kelvin warmer, with less yarn and without the third dip.
    private static readonly VatRecord Second = Later(First);

    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-compare").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static VatRecord Later(VatRecord record)
    {
        var week = TimeSpan.FromDays(7);
        return record with
        {
            From = record.From + week,
            To = record.To + week,
            Session = record.Session! with { Id = new SessionId("2026-03-13"), Started = record.Session.Started.Plus(week), Details = record.Session.Details with { YarnGrams = 600 } },
            Measurements =
            [
                .. record.Measurements.Select(one => one with { Stamp = one.Stamp.Plus(week), Value = one.Quantity == Quantity.Temperature ? one.Value + 2 : one.Value }),
            ],
            Entries = [.. record.Entries.Where(entry => entry.At.Utc < record.From.AddHours(5.9)).Select(entry => entry with { At = entry.At.Plus(week) })],
            Conditions = [.. record.Conditions.Select(one => one with { Stamp = one.Stamp.Plus(week), TemperatureC = one.TemperatureC + 2 })],
        };
    }

    [Fact]
    public void First_dips_fall_together_and_lines_differ_by_their_pattern()
    {
        var drawn = new DrawnSvg(new SessionComparison([First, Second]).Chart.Svg(ChartSize.Page));
        Assert.Contains("hours since the first dip", drawn.Texts);
        Assert.Contains("2026-03-06", drawn.Texts);
        Assert.Contains("2026-03-13", drawn.Texts);
        var bars = drawn.Rectangles(Inks.Indigo).GroupBy(bar => bar.Y).Select(lane => lane.Select(bar => bar.X).Order().ToArray()).ToArray();
        Assert.Equal([3, 2], bars.Select(lane => lane.Length));
        Assert.Equal(bars[0][0], bars[1][0], 0.01f);
        // A solid line is a stroke, a dashed one is filled outlines of its dashes.
        Assert.NotEmpty(drawn.Lines(Inks.Indigo, 1.7f));
        Assert.Contains(drawn.Shapes(Inks.Indigo), shape => shape.Count > 30);
    }

    [Fact]
    public void The_table_tells_what_differs_and_names_what_does_not()
    {
        var table = DifferenceTable.Of([SessionSummary.Of("one", First), SessionSummary.Of("other", Second)], DisplayUnits.Si);
        Assert.Equal(["", "one", "other", "difference"], table.Columns);
        string[] Row(string label) => [.. table.Rows.Single(row => row[0] == label).Skip(1).Select(cell => cell.Replace('\u00a0', ' '))];
        Assert.Equal(["900 g", "600 g", "−300 g"], Row("Yarn, dry"));
        Assert.Equal(["3", "2", "−1"], Row("Dips"));
        // 900 g in three dips, 600 g in two: the same.
        Assert.DoesNotContain("Yarn for each dip", table.Rows.Select(row => row[0]));
        Assert.Contains("yarn for each dip (300", table.Note!.Replace('\u00a0', ' '));
        Assert.Equal("2.0 °C", Row("Liquor at the first dip")[2]);
    }

    [Fact]
    public void One_file_of_each_kind_is_written()
    {
        var comparison = new SessionComparison([First, Second]);
        foreach (var name in (string[])["a.html", "a.svg", "a.png", "a.pdf"])
            comparison.Chart.Write(Path.Combine(_folder, name), new ReportOptions());
        Assert.Equal(["a.html", "a.pdf", "a.png", "a.svg"], Directory.GetFiles(_folder).Select(Path.GetFileName).Order());
        Assert.Contains("What differs", File.ReadAllText(Path.Combine(_folder, "a.html")));
        Assert.Contains("difference", Poppler.Run("pdftotext", "-f", "2", Path.Combine(_folder, "a.pdf"), "-"));
        Assert.Contains(TabledChart.FormatsText, Assert.Throws<UnknownReportFormatException>(() => comparison.Chart.Write(Path.Combine(_folder, "a.csv"), new ReportOptions())).Message);
    }

    [Fact]
    public void One_session_or_too_many_or_a_stretch_of_time_cannot_be_compared()
    {
        Assert.Throws<ArgumentException>(() => new SessionComparison([First]));
        Assert.Throws<ArgumentException>(() => new SessionComparison([.. Enumerable.Repeat(First, SessionComparison.Most + 1)]));
        Assert.Throws<ArgumentException>(() => new SessionComparison([First, MorningOfDips.Bare()]));
    }
}
