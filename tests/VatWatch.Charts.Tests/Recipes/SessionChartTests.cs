using SkiaSharp;
using VatWatch.Alarms;
using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Tests.Recipes;

public class SessionChartTests
{
    private static readonly VatRecord Night = new NightOfWarming(every: TimeSpan.FromSeconds(30)).Record();

    private static DrawnSvg Draw(VatRecord record, ChartSize? size = null) =>
        new(SessionChart.Svg(record, NightOfWarming.NewYork, size ?? ChartSize.Page));

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_png_has_the_size_that_was_asked_for_and_is_not_blank(bool phone)
    {
        var size = phone ? ChartSize.Phone : ChartSize.Page;
        using var stream = new MemoryStream();
        SessionChart.WritePng(Night, NightOfWarming.NewYork, size, stream);
        using var picture = SKBitmap.Decode(stream.ToArray());
        Assert.Equal((size.PixelWidth, size.PixelHeight), (picture.Width, picture.Height));
        var pixels = picture.Pixels;
        Assert.Equal(SKColors.White, pixels[0]);
        Assert.InRange(pixels.Count(pixel => pixel == Inks.Indigo.ToSKColor()), 2_000, pixels.Length / 10);
    }

    [Fact]
    public void Bands_limits_and_thresholds_are_labelled_in_words_and_in_the_dyers_unit()
    {
        var texts = Draw(Night).Texts;
        Assert.Contains("limit 120 °F", texts);
        Assert.Contains("band 100 to 118 °F", texts);
        Assert.Contains("band 9.5 to 10.5", texts);
        Assert.Contains("weak above −660 mV", texts);
        Assert.Contains("oxidised above −580 mV", texts);
        Assert.Contains("ORP against Ag/AgCl 3 M KCl", texts);
        Assert.Contains("limit 48.9 °C", Draw(Night with { Units = DisplayUnits.Si }).Texts);
    }

    [Fact]
    public void The_limit_is_a_dashed_line_across_the_panel_at_its_value()
    {
        var limit = Draw(Night).Shapes(Inks.Madder).Single(shape => shape.Count > 20 && shape.Max(dash => dash.Max(point => point.Y)) < 300);
        var points = limit.SelectMany(dash => dash).ToArray();
        Assert.InRange(points.Max(point => point.X) - points.Min(point => point.X), 600, 640);
        Assert.InRange(points.Max(point => point.Y) - points.Min(point => point.Y), 1, 2);
    }

    [Fact]
    public void The_line_is_broken_once_at_the_gap_and_for_ph_once_more_at_the_fault()
    {
        var lines = ChiefLines(Draw(Night));
        // Temperature: 1 gap. pH: gap and fault. ORP: gap, and the doubtful stretch that is drawn apart.
        Assert.Equal([2, 3, 3], lines.Select(line => line.Count));
        var (before, after) = (lines[0][0][^1].X, lines[0][1][0].X);
        // 3 h 06 min to 3 h 31 min of 12 h, on an axis of 620 units.
        Assert.InRange(after - before, 620 * 0.42 / 12 - 2, 620 * 0.42 / 12 + 2);
    }

    [Fact]
    public void A_single_spike_of_one_reading_in_a_day_reaches_its_full_height()
    {
        var day = new NightOfWarming(TimeSpan.FromHours(24)).Record();
        var readings = day.Measurements.ToArray();
        var at = Array.FindIndex(readings, reading => reading.Quantity == Quantity.Temperature && reading.Stamp.Utc >= day.From.AddHours(18));
        readings[at] = readings[at] with { Value = 70 };
        var calm = Top(Draw(day with { Measurements = [.. readings.Where((_, i) => i != at)] }));
        var spiked = ChiefLines(Draw(day with { Measurements = readings }))[0].SelectMany(piece => piece).ToArray();
        var peak = spiked.MinBy(point => point.Y);
        // 18 of 24 h along an axis of 620 units from 50.1; it is one point, far above its neighbours.
        Assert.InRange(peak.X, 50.1 + 620 * 0.75 - 1.5, 50.1 + 620 * 0.75 + 1.5);
        Assert.True(spiked.Count(point => point.Y < peak.Y + 20) == 1);
        Assert.True(calm.Y > peak.Y - 20);
    }

    // Without the short pieces in the keys.
    private static IReadOnlyList<(float X, float Y)[]>[] ChiefLines(DrawnSvg svg) =>
        [.. svg.Lines(Inks.Indigo, 1.7f).Where(line => line.Sum(piece => piece.Length) > 100)];

    private static (float X, float Y) Top(DrawnSvg svg) => ChiefLines(svg)[0].SelectMany(piece => piece).MinBy(point => point.Y);

    [Fact]
    public void Alarms_are_named_with_when_they_entered_were_seen_and_ended()
    {
        var texts = Draw(Night).Texts;
        Assert.Contains("overheat 02:12, acknowledged 03:21 by Ada, over 05:06", texts);
        Assert.Contains("redox-weak 04:45, not acknowledged, still on", texts);
    }

    [Fact]
    public void The_axis_names_date_and_zone()
    {
        var texts = Draw(Night).Texts;
        Assert.Contains("time, America/New_York (UTC−05:00)", texts);
        Assert.Contains("5 Mar", texts);
        Assert.Contains("6 Mar", texts);
        Assert.Contains("5 Mar 2026 20:00 – 6 Mar 2026 08:00, 12 h", texts);
    }

    [Fact]
    public void The_key_explains_only_marks_that_occur()
    {
        Assert.Superset(new HashSet<string> { "no readings", "probe fault", "doubtful reading" }, Draw(Night).Texts.ToHashSet());
        var calm = Logs.Liquor(Enumerable.Range(0, 60).Select(minute => ((double)minute, (double?)44)));
        Assert.DoesNotContain("no readings", Draw(calm).Texts);
        Assert.DoesNotContain("probe fault", Draw(calm).Texts);
    }

    [Fact]
    public void The_picture_carries_its_font()
    {
        var svg = Draw(Night);
        Assert.Contains("font-family:'DejaVu Sans Condensed'", svg.Style);
        Assert.Contains("data:font/woff2;base64,", svg.Style);
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("\"Vat\" & 'Sons' <b>")]
    [InlineData("]]></svg><image href=\"x\"/>")]
    [InlineData("line\nbreak\u0000\u001b[31m\ud800 end\uffff")]
    [InlineData("Küpe ένα кадка ½ → µ°−")]
    public void A_hostile_name_stays_text(string name)
    {
        var hostile = Night with
        {
            Vat = Night.Vat with { Name = name },
            AlarmChanges = [NightOfWarming.Change(name, AlarmState.Normal, AlarmState.Unacknowledged, TimeSpan.FromHours(6), TimeSpan.FromHours(6))],
        };
        var svg = Draw(hostile);
        Assert.Equal($"Chart of {OneLine.Of(name)}", svg.Title);
        var shown = string.Join(' ', OneLine.Of(name).Split(' ', StringSplitOptions.RemoveEmptyEntries));
        Assert.Equal(shown, svg.Texts[0]);
        Assert.Contains(svg.Texts, text => text.StartsWith(shown + " 02:00", StringComparison.Ordinal));
        Assert.DoesNotContain("script", svg.Elements);
        Assert.DoesNotContain("image", svg.Elements);
        Assert.Equal(Draw(Night).Elements, svg.Elements);
    }

    [Fact]
    public void A_name_too_long_for_the_page_is_cut_with_an_ellipsis() =>
        Assert.EndsWith("…", Draw(Night with { Vat = Night.Vat with { Name = new string('W', 400) } }, ChartSize.Phone).Texts[0]);

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Next_to_nothing_recorded_still_makes_a_chart(int readings)
    {
        var record = Logs.Record(TimeSpan.FromHours(1), Enumerable.Range(0, readings).Select(minute => Logs.Reading(minute, 44)));
        Assert.Contains("Madder Lane vat", Draw(record).Texts);
        Assert.Equal(readings == 0 ? 3 : 2, Draw(record).Texts.Count(text => text == "nothing recorded"));
        Assert.NotEmpty(Draw(record with { To = record.From }, ChartSize.Phone).Texts);
    }

    [Fact]
    public void Where_the_key_is_short_of_room_the_chief_probe_keeps_its_name()
    {
        var readings = Enumerable.Range(0, 60).Select(minute => Logs.Reading(minute, 44)).ToArray();
        var second = readings.Select(reading => reading with { Probe = new ProbeId("thermometer-at-the-bottom-of-the-vat") });
        var texts = Draw(Logs.Record(TimeSpan.FromHours(1), [.. readings, .. second]), ChartSize.Phone).Texts;
        Assert.Contains("liquor", texts);
        Assert.Contains(texts, text => text is ['t', .., '…'] && "thermometer-at-the-bottom-of-the-vat".StartsWith(text[..^1], StringComparison.Ordinal));
    }

    [Fact]
    public void Charts_drawn_at_the_same_time_on_several_threads_are_the_same()
    {
        var pictures = new byte[6][];
        Parallel.For(0, pictures.Length, i =>
        {
            using var stream = new MemoryStream();
            SessionChart.WritePng(Night, NightOfWarming.NewYork, ChartSize.Phone, stream);
            pictures[i] = stream.ToArray();
        });
        Assert.All(pictures, picture => Assert.Equal(pictures[0], picture));
    }

    [Fact]
    public void A_flood_of_alarms_leaves_room_for_the_readings()
    {
        var changes = Enumerable.Range(0, 200).Select(i => NightOfWarming.Change(
            $"probe-silent.p{i % 20}", i % 40 < 20 ? AlarmState.Normal : AlarmState.Unacknowledged,
            i % 40 < 20 ? AlarmState.Unacknowledged : AlarmState.Normal, TimeSpan.FromMinutes(i), TimeSpan.FromMinutes(i)));
        var texts = Draw(Night with { AlarmChanges = [.. changes] }).Texts;
        Assert.Equal(7, texts.Count(text => text.StartsWith("probe-silent.p", StringComparison.Ordinal)));
        Assert.Contains("and 13 more, not drawn", texts);
        Assert.Contains("limit 120 °F", texts);
    }
}
