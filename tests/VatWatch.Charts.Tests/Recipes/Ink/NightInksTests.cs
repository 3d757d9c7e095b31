using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;

namespace VatWatch.Charts.Tests.Recipes.Ink;

public class NightInksTests
{
    [Fact]
    public void Every_colour_of_a_chart_has_a_twin_for_the_night()
    {
        var day = SessionChart.Svg(new NightOfWarming().Record(), TimeZoneInfo.Utc, ChartSize.Phone);
        var night = NightInks.Recolour(day);
        Assert.Contains("fill=\"#141929\"", night, StringComparison.Ordinal);
        foreach (var ink in (ScottPlot.Color[])[Inks.Paper, Inks.Text, Inks.Faint, Inks.Indigo, Inks.Madder, Inks.Linen, Inks.Thread, Inks.Ash])
            Assert.DoesNotContain($"=\"{ink.ToHex()}\"", night, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("\"white\"", night, StringComparison.Ordinal);
        Assert.DoesNotContain("\"black\"", night, StringComparison.Ordinal);
    }

    [Fact]
    public void Words_are_left_alone() =>
        Assert.Equal("<text fill=\"#efeadd\">the white vat, #22252e</text>", NightInks.Recolour("<text fill=\"#22252E\">the white vat, #22252e</text>"));
}
