using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Conditions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Tests.Recipes;

/// <summary>What a session adds to the chart, read back from the picture.</summary>
public class SessionMarksTests
{
    private static readonly VatRecord Morning = MorningOfDips.Record();

    private static DrawnSvg Draw(VatRecord record, ChartSize? size = null) => new(SessionChart.Svg(record, TimeZoneInfo.Utc, size ?? ChartSize.Page));

    // The axis is 619.8 units long from 50.1 on a page; see SessionChartTests.
    private static double XOf(double hours) => 50.1 + 619.8 * hours / MorningOfDips.Length.TotalHours;

    [Fact]
    public void Each_dip_is_a_bar_from_in_to_out()
    {
        var bars = Draw(Morning).Rectangles(Inks.Indigo).OrderBy(bar => bar.X).ToArray();
        Assert.Equal(MorningOfDips.DipHours.Select(hours => XOf(hours)), bars.Select(bar => (double)bar.X), (expected, seen) => Math.Abs(expected - seen) < 0.5);
        Assert.All(bars, bar => Assert.Equal(619.8 * 0.2 / 8, bar.Width, 0.5));
    }

    [Fact]
    public void Dips_are_numbered_and_additions_lettered_with_a_key()
    {
        var texts = Draw(Morning).Texts;
        Assert.Contains("Dips, additions and notes", texts);
        Assert.Superset(new HashSet<string> { "1", "2", "3", "A", "B", "C", "D" }, texts.ToHashSet());
        Assert.Contains("02:00 added 100 g of soda ash", texts);
        Assert.Contains("04:12 lid off", texts);
        Assert.Contains("06:30 <b>a note</b>", texts);
        // Five entries have a letter but one is withdrawn.
        Assert.DoesNotContain("E", texts);
    }

    [Fact]
    public void The_ribbon_says_the_state_in_words()
    {
        var texts = Draw(Morning).Texts;
        Assert.Contains("State", texts);
        Assert.Contains("ready", texts);
        Assert.Contains("resting", texts);
    }

    [Fact]
    public void A_state_too_short_for_its_word_is_explained_beside_the_heading()
    {
        VatCondition At(int minute, VatState state) => new()
        {
            Vat = NightOfWarming.Vat.Id,
            Stamp = NightOfWarming.StampAt(TimeSpan.FromMinutes(minute)),
            State = state,
            Reasons = ["made up for a test"],
        };
        var record = MorningOfDips.Bare() with { Conditions = [At(0, VatState.Ready), At(200, VatState.Oxidised), At(203, VatState.Ready), At(480, VatState.Ready)] };
        var drawn = Draw(record);
        Assert.Equal(1, drawn.Texts.Count(text => text == "oxidised"));
        Assert.Equal(2, drawn.Texts.Count(text => text == "ready"));
    }

    [Fact]
    public void Every_state_has_a_pattern_of_its_own()
    {
        var patterns = Enum.GetValues<VatState>().Select(state =>
        {
            using var stream = new MemoryStream();
            PngPicture.Write(new ChartSize(60, 20, 1, 11), canvas => Charts.Recipes.Marks.StateTexture.Draw(canvas, new SkiaSharp.SKRect(0, 0, 60, 20), state), stream);
            using var picture = SkiaSharp.SKBitmap.Decode(stream.ToArray());
            // As grey paper shows it: only lightness is left.
            return Convert.ToHexString([.. picture.Pixels.Select(pixel => (byte)((pixel.Red + pixel.Green + pixel.Blue) / 3 * pixel.Alpha / 255))]);
        }).ToArray();
        Assert.Equal(patterns.Length, patterns.Distinct().Count());
    }

    [Fact]
    public void The_margin_of_reduction_has_a_panel_when_it_is_known()
    {
        Assert.Contains("Margin of reduction", Draw(Morning).Texts);
        Assert.Contains("half reduced; lower is stronger", Draw(Morning).Texts);
        Assert.DoesNotContain("Margin of reduction", Draw(MorningOfDips.Bare()).Texts);
    }

    [Fact]
    public void Without_entries_and_conditions_no_lane_is_left_empty()
    {
        var texts = Draw(MorningOfDips.Bare()).Texts;
        Assert.DoesNotContain("State", texts);
        Assert.DoesNotContain(texts, text => text.Contains("Dips", StringComparison.Ordinal) || text.Contains("notes", StringComparison.Ordinal));
    }

    [Fact]
    public void With_dips_alone_the_lane_is_named_for_them() =>
        Assert.Contains("Dips", Draw(Morning with { Entries = [.. MorningOfDips.Entries.Where(entry => entry.Kind is EntryKind.DipIn or EntryKind.DipOut)] }).Texts);

    [Fact]
    public void More_letters_than_the_key_has_room_for_are_counted()
    {
        var many = Enumerable.Range(0, 30).Select(i => MorningOfDips.Entry(i / 5.0, EntryKind.Stirred) with { Id = i });
        var texts = Draw(Morning with { Entries = [.. many] }).Texts;
        // Ten places, the last of which counts: 26 letters less nine.
        Assert.Contains("and 17 more", texts);
        Assert.Equal(9, texts.Count(text => text.EndsWith("stirred", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_telephone_gets_as_much_more_height_as_the_session_needs_and_a_page_none()
    {
        Assert.Equal(ChartSize.Page, SessionChart.Grown(Morning, ChartSize.Page));
        Assert.Equal(ChartSize.Phone, SessionChart.Grown(MorningOfDips.Bare(), ChartSize.Phone));
        Assert.InRange(SessionChart.Grown(Morning, ChartSize.Phone).Height, ChartSize.Phone.Height + 200, ChartSize.Phone.Height + 420);
    }

    [Fact]
    public void Both_units_of_temperature_are_on_the_chart()
    {
        Assert.Contains("°C (right: °F)", Draw(Morning).Texts);
        Assert.Contains("°F (right: °C)", Draw(MorningOfDips.Record(DisplayUnits.Us)).Texts);
    }
}
