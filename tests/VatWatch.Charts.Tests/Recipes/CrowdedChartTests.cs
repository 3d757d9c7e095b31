using VatWatch.Charts.Recipes;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Conditions;
using VatWatch.Conditions.Reduction;

namespace VatWatch.Charts.Tests.Recipes;

public sealed class CrowdedChartTests
{
    [Fact]
    public void A_vat_that_flickers_makes_no_larger_a_picture_the_longer_it_does()
    {
        var (month, season) = (Picture(looks: 40_000), Picture(looks: 120_000));
        Assert.InRange(month.Length, 10_000, 5_000_000);
        Assert.InRange(season.Length, 10_000, month.Length * 1.5);
    }

    // Every other look finds nothing known, as when a log is slower than its probes are configured.
    private static string Picture(int looks)
    {
        var record = Logs.Record(TimeSpan.FromMinutes(looks), []) with
        {
            Conditions =
            [
                .. Enumerable.Range(0, looks).Select(minute => new VatCondition
                {
                    Vat = NightOfWarming.Vat.Id,
                    Stamp = NightOfWarming.StampAt(TimeSpan.FromMinutes(minute)),
                    State = minute % 2 == 0 ? VatState.Ready : VatState.Unknown,
                    Reasons = ["made up for a test"],
                    Margin = minute % 2 == 0 ? new ReductionMargin(-150 + minute % 13, 30, -700, -550, 0.99, false) : null,
                }),
            ],
        };
        return SessionChart.Svg(record, TimeZoneInfo.Utc, ChartSize.Page);
    }
}
