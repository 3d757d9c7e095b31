using System.Text.RegularExpressions;
using VatWatch.Alarms;
using VatWatch.Charts.Reports;
using VatWatch.Charts.Reports.Html;

namespace VatWatch.Charts.Tests.Reports.Html;

public partial class HtmlReportTests
{
    private static readonly VatRecord Night = new NightOfWarming(every: TimeSpan.FromMinutes(1)).Record();
    private static readonly ReportOptions Options = new() { Zone = NightOfWarming.NewYork };

    [Fact]
    public void The_page_holds_both_sizes_of_chart_and_all_tables()
    {
        var page = HtmlReport.Of(Night, Options);
        Assert.Contains("viewBox=\"0 0 720 960\"", page);
        Assert.Contains("viewBox=\"0 0 390 800\"", page);
        Assert.Contains("<th scope=\"row\">Degree-minutes above the limit</th>", page);
        Assert.Contains("<b>overheat</b>", page);
        Assert.Contains(">all probes</td>", page);
        Assert.Contains("America/New_York (UTC−05:00)", page);
    }

    [Fact]
    public void The_page_needs_nothing_from_elsewhere_and_runs_nothing()
    {
        var page = HtmlReport.Of(Night, Options);
        var addresses = Addresses().Matches(page).Select(match => match.Value).Distinct();
        Assert.Equal(["http://www.w3.org/1999/xlink", "http://www.w3.org/2000/svg"], addresses.Order());
        Assert.DoesNotMatch("<script|<link|<img|<iframe| src=| on[a-z]+=", page);
        Assert.Equal(2, page.Split("data:font/woff2").Length - 1);
    }

    [Fact]
    public void Photographs_lie_inside_with_their_time_and_what_they_show()
    {
        var page = HtmlReport.Of(Night with { Photos = [new(Night.From.AddHours(1), "first <skein>", [0xFF, 0xD8, 0xFF], 40, 30)] }, Options);
        Assert.Contains("<img src=\"data:image/jpeg;base64,/9j/\" width=\"40\" height=\"30\" alt=\"21:00: first &lt;skein&gt;\">", page);
        Assert.Contains("<figcaption>21:00: first &lt;skein&gt;</figcaption>", page);
    }

    [Fact]
    public void Two_pictures_in_one_page_do_not_share_an_id()
    {
        var page = HtmlReport.Of(Night, Options);
        var ids = Ids().Matches(page).Select(match => match.Groups[1].Value).ToArray();
        Assert.NotEmpty(ids);
        Assert.Equal(ids.Length, ids.Distinct().Count());
        Assert.All(References().Matches(page), match => Assert.Contains(match.Groups[1].Value, ids));
    }

    [Fact]
    public void Hostile_names_reasons_and_texts_stay_text()
    {
        const string hostile = "<script>alert('x')</script>\"&\u0000";
        var record = Night with
        {
            Vat = Night.Vat with { Name = hostile },
            Measurements =
            [
                .. Enumerable.Range(0, 60).Select(minute => NightOfWarming.Bad("liquor", Quantity.Temperature, TimeSpan.FromMinutes(minute), Quality.Fault, hostile)),
            ],
            AlarmChanges = [NightOfWarming.Change(hostile, AlarmState.Normal, AlarmState.Acknowledged, TimeSpan.Zero, TimeSpan.Zero, hostile)],
        };
        var page = HtmlReport.Of(record, Options);
        Assert.DoesNotContain("<script", page);
        Assert.DoesNotContain('\0', page);
        Assert.Contains("<h1>&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;&quot;&amp; </h1>", page);
        Assert.Contains(">&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;&quot;&amp; </td>", page);
    }

    [Fact]
    public void An_empty_record_says_that_nothing_was_recorded() => Assert.Contains(
        "<p>Nothing was recorded.</p>", HtmlReport.Of(Night with { Measurements = [], AlarmChanges = [] }, Options));

    [Fact]
    public void A_flickering_probe_does_not_make_an_endless_page()
    {
        // 300 faults of four minutes, four good minutes between them.
        var readings = Enumerable.Range(0, 2400).Select(minute => Logs.Reading(minute, minute % 8 < 4 ? 40 : null));
        var page = HtmlReport.Of(Logs.Record(TimeSpan.FromMinutes(2400), readings), Options);
        Assert.Contains("<p>And 100 more.</p>", page);
    }

    [GeneratedRegex("https?://[^\"' )]+")]
    private static partial Regex Addresses();

    [GeneratedRegex(" id=\"([^\"]+)\"")]
    private static partial Regex Ids();

    [GeneratedRegex(@"url\(#([^)]+)\)")]
    private static partial Regex References();
}
