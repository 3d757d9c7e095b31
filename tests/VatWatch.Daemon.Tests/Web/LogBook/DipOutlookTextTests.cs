using VatWatch.Conditions;
using VatWatch.Conditions.Heating;
using VatWatch.Daemon.Web.LogBook;

namespace VatWatch.Daemon.Tests.Web.LogBook;

public sealed class DipOutlookTextTests
{
    private static readonly DipOutlook Good = new(
        new(0.5, 0.66), new(43.34, 43.5), new Forecast(TimeSpan.FromMinutes(4), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(7)), 6, 9, TimeSpan.FromMinutes(24), 3, []);

    [Fact]
    public void It_is_said_in_the_dyers_units() => Assert.Equal(
        [
            "The next dip cools the liquor by 0.9 to 1.2 °F, to about 110.2 °F.",
            "With the heater on it is back in 4 min to 7 min.",
            "Room for 6 to 9 dips before a rest.",
            "ORP was back 24 min after a dip (middle of 3).",
        ],
        Words(Good));

    [Fact]
    public void A_dip_that_would_end_below_the_band_is_warned_of() =>
        Assert.Contains("below the working band, which starts at 100.4 °F", string.Join(' ', Words(Good with { After = new(37.1, 37.9) })), StringComparison.Ordinal);

    [Fact]
    public void A_heater_that_does_not_make_it_good_is_told_of()
    {
        Assert.Contains("The heater does not make that good.", Words(Good with { Recovery = null }));
        Assert.Contains("4 min at the earliest, or not for hours", string.Join(' ', Words(Good with { Recovery = Good.Recovery! with { Late = null } })), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 0, "No dip is left in it")]
    [InlineData(1, 1, "1 dip before")]
    [InlineData(4, 4, "4 dips before")]
    [InlineData(0, 1, "0 to 1 dip before")]
    public void Dips_are_counted(int fewest, int most, string says) =>
        Assert.Contains(says, string.Join(' ', Words(Good with { FewestDips = fewest, MostDips = most })), StringComparison.Ordinal);

    private static List<string> Words(DipOutlook outlook) => [.. DipOutlookText.Sentences(outlook, new TemperatureBand(38, 48, 49), DisplayUnits.Us)];
}
