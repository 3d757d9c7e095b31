using VatWatch.Calibration;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Reports.Content;
using VatWatch.Charts.Reports.Html;

namespace VatWatch.Charts.Tests.Reports;

/// <summary>The report of a session as its readers see it, in every form.</summary>
[Trait("Starts", "processes")]
public sealed class SessionReportTests : IDisposable
{
    private static readonly VatRecord Morning = MorningOfDips.Record();
    private static readonly SessionFigures Figures = new(Morning, TimeZoneInfo.Utc);
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-session").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static Dictionary<string, string> Rows => Figures.Figures.ToDictionary(row => row.Label.Replace('\u00a0', ' '), row => row.Value.Replace('\u00a0', ' '));

    [Fact]
    public void The_dyers_work_is_told_with_sums_and_the_yarn_of_each_dip()
    {
        Assert.Equal("sky", Rows["Shade"]);
        Assert.Equal("good", Rows["How it came out"]);
        Assert.Equal("3, yarn in the liquor for 36 min", Rows["Dips"]);
        // 900 g in three dips.
        Assert.Equal("900 g; 300 g for each of 3 dips", Rows["Yarn, dry"]);
        // The 500 g were withdrawn.
        Assert.Equal("100 g", Rows["Added, soda ash"]);
    }

    [Fact]
    public void The_loss_coefficient_comes_with_its_uncertainty() => Assert.Matches(@"^[\d.]+ ± [\d.]+ W/K, evaporation counted$", Rows["Loss coefficient"]);

    [Fact]
    public void Dips_log_book_and_probes_have_tables()
    {
        Assert.Equal(["Dips", "Log book", "Probes"], Figures.Tables.Select(table => table.Heading));
        var first = Figures.Tables[0].Rows[0].Select(cell => cell.Replace('\u00a0', ' ')).ToArray();
        Assert.Equal("dip 1", first[0]);
        Assert.Equal("05:00 – 05:12, 12 min", first[1]);
        Assert.All(Figures.Tables, table => Assert.All(table.Rows, row => Assert.Equal(table.Columns.Count, row.Length)));
        Assert.Equal(["02:00", "04:12", "06:30", "08:24"], Figures.Tables[1].Rows.Select(row => row[0]));
    }

    [Fact]
    public void The_calibration_that_was_used_is_told()
    {
        var kept = new DatedCalibration(9, new ProbeId("ph-glass"), NightOfWarming.Start.AddDays(-2), PhCalibration.Through(
            [
                new PhCalibrationPoint("technical 7.00", new(5, 7, 25)), new PhCalibrationPoint("technical 10.01", new(-170, 10.01, 25)),
            ],
            PhFitKind.Line,
            null));
        var used = Morning with { Calibrations = [kept], Measurements = [.. Morning.Measurements.Select(one => one.Quantity == Quantity.Ph ? one with { Calibration = 9 } : one)] };
        var row = new SessionFigures(used, TimeZoneInfo.Utc).Tables[2].Rows.Single(row => row[0] == "ph-glass (ph)");
        // 175 mV over 3.01 pH are 58.14 mV, of 59.16 mV at 25 °C: 98.3 %.
        Assert.Equal("4 Mar 2026: slope 98.3 %, offset 5.0 mV, 2 buffers", row[5]);
        Assert.Equal("100.0\u00a0%", row[1]);
    }

    [Fact]
    public void The_page_has_everything_and_what_people_wrote_stays_text()
    {
        var page = HtmlReport.Of(Morning, new ReportOptions());
        Assert.Contains("<h2>For next time</h2>", page);
        Assert.Contains("Session 2026-03-06", page);
        Assert.Contains("sharpen before dip 3", page);
        Assert.Contains("&lt;b&gt;a note&lt;/b&gt;", page);
        Assert.DoesNotContain("<b>a note", page);
    }

    [Fact]
    public void On_paper_the_chart_has_a_page_and_the_tables_another()
    {
        var file = Path.Combine(_folder, "session.pdf");
        new ReportWriter(new ReportOptions()).Write(Morning, file);
        Assert.Matches(@"Pages:\s+2\n", Poppler.Run("pdfinfo", file));
        var chart = Poppler.Run("pdftotext", "-l", "1", "-layout", file, "-");
        Assert.Contains("Dips, additions and notes", chart);
        Assert.Contains("For next time", chart);
        var tables = Poppler.Run("pdftotext", "-f", "2", "-layout", file, "-");
        Assert.Contains("dip 3", tables);
        Assert.Contains("Loss coefficient", tables);
        Assert.Contains("added 100 g of soda ash", tables);
        Poppler.Run("pdftoppm", "-r", "100", "-gray", "-png", file, Path.Combine(_folder, "page"));
        foreach (var page in (string[])["page-1.png", "page-2.png"])
        {
            using var picture = SkiaSharp.SKBitmap.Decode(Path.Combine(_folder, page));
            Assert.InRange(picture.Pixels.Count(pixel => pixel.Red < 128), 3_000, 90_000);
        }
    }

    [Fact]
    public void The_same_session_gives_the_same_page_byte_for_byte() =>
        Assert.Equal(HtmlReport.Of(Morning, new ReportOptions()), HtmlReport.Of(MorningOfDips.Record(), new ReportOptions()));

    [Fact]
    public void A_long_span_says_how_it_was_summed_up() => Assert.Contains(
        "from columns of 1 h", HtmlReport.Of(MorningOfDips.Bare() with { SummedUpBy = TimeSpan.FromHours(1) }, new ReportOptions()).Replace('\u00a0', ' ').Replace("&#160;", " "));
}
