using VatWatch.Alarms;
using VatWatch.Charts.Reports;

namespace VatWatch.Charts.Tests.Reports.Pdf;

/// <summary>The PDF as other programs see it: poppler's pdfinfo, pdftotext and pdftoppm (Debian package poppler-utils).</summary>
[Trait("Starts", "processes")]
public sealed class PdfReportTests : IDisposable
{
    private static readonly VatRecord Night = new NightOfWarming(every: TimeSpan.FromMinutes(1)).Record();
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-pdf").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData(true, "612 x 792 pts (letter)")]
    [InlineData(false, "pts (A4)")]
    public void It_is_one_page_of_the_paper_usual_with_the_dyers_units(bool us, string size)
    {
        var info = Poppler.Run("pdfinfo", Write(Night with { Units = new DisplayUnits(us) }));
        Assert.Matches(@"Pages:\s+1\n", info);
        Assert.Contains(size, info);
        Assert.Contains("Madder Lane vat, 5 Mar 2026 20:00", info);
    }

    [Fact]
    public void Its_text_can_be_selected_and_searched()
    {
        var text = Poppler.Run("pdftotext", "-layout", Write(Night), "-");
        Assert.Contains("Madder Lane vat", text);
        Assert.Contains("limit 120 °F", text);
        Assert.Contains("Degree-minutes above the limit", text);
        Assert.Contains("overheat (critical)", text);
        Assert.Contains("all probes: no record", text);
        Assert.Contains("it is not a safety device", text);
    }

    [Fact]
    public void It_renders_with_the_chart_in_ink_and_clear_margins()
    {
        Poppler.Run("pdftoppm", "-r", "72", "-png", "-singlefile", Write(Night), Path.Combine(_folder, "page"));
        using var picture = SkiaSharp.SKBitmap.Decode(Path.Combine(_folder, "page.png"));
        Assert.Equal((612, 792), (picture.Width, picture.Height));
        var dark = Enumerable.Range(0, picture.Height).SelectMany(y => Enumerable.Range(0, picture.Width).Select(x => (x, y)))
            .Where(at => picture.GetPixel(at.x, at.y) is { Red: < 100, Green: < 100 }).ToArray();
        Assert.InRange(dark.Length, 3_000, 60_000);
        // Half an inch is 36 pixels here.
        Assert.True(dark.Min(at => at.x) >= 36 && dark.Max(at => at.x) < 612 - 36 && dark.Min(at => at.y) >= 36 && dark.Max(at => at.y) < 792 - 36);
    }

    [Fact]
    public void A_night_of_many_alarms_stays_on_one_page_and_says_how_many_are_left_out()
    {
        var changes = Enumerable.Range(0, 120).Select(i => NightOfWarming.Change(
            $"probe-silent.p{i}", AlarmState.Normal, AlarmState.Unacknowledged, TimeSpan.FromMinutes(i), TimeSpan.FromMinutes(i)));
        var file = Write(Night with { AlarmChanges = [.. changes] });
        Assert.Matches(@"Pages:\s+1\n", Poppler.Run("pdfinfo", file));
        Assert.Matches(@"and \d\d+ more\b", Poppler.Run("pdftotext", file, "-"));
    }

    [Fact]
    public void An_empty_record_makes_a_page_too() =>
        Assert.Contains("Nothing was recorded.", Poppler.Run("pdftotext", Write(Night with { Measurements = [], AlarmChanges = [] }), "-"));

    private string Write(VatRecord record)
    {
        var path = Path.Combine(_folder, "night.pdf");
        new ReportWriter(new ReportOptions { Zone = NightOfWarming.NewYork }).Write(record, path);
        return path;
    }
}
