using VatWatch.Calibration;
using VatWatch.Charts.Life;
using VatWatch.Charts.Recipes.Frame;
using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Tests.Recipes;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Tests.Life;

public class VatLifeTests
{
    private static readonly VatLife Life = new(
        NightOfWarming.Vat,
        DisplayUnits.Si,
        [.. Enumerable.Range(0, 5).Select(week => new LifeSession(Session(week), MorningOfDips.Record().Conditions[^1], SessionTally.Of(MorningOfDips.Entries)))],
        [.. Enumerable.Range(0, 3).Select(month => Calibration(month))]);

    private static Session Session(int week) => MorningOfDips.Session with
    {
        Id = SessionId.Of(new DateOnly(2026, 3, 6).AddDays(7 * week), 1),
        Started = MorningOfDips.Session.Started.Plus(TimeSpan.FromDays(7 * week)),
    };

    // 60 − 1 mV a month over 3 pH.
    private static DatedCalibration Calibration(int month) => new(month, new ProbeId("ph-glass"), NightOfWarming.Start.AddDays(30 * month), PhCalibration.Through(
        [
            new PhCalibrationPoint("technical 7.00", new(4 + month, 7, 25)), new PhCalibrationPoint("technical 10.00", new(4 + month - 3 * (58 - month), 10, 25)),
        ],
        PhFitKind.Line,
        null));

    [Fact]
    public void What_was_added_counts_for_each_kilogram_of_yarn()
    {
        // 100 g for 900 g.
        Assert.Equal(111.1, Life.Sessions[0].GramsPerKilogram(Material.SodaAsh)!.Value, 0.1);
        Assert.Null(Life.Sessions[0].GramsPerKilogram(Material.ReducingAgent));
        Assert.Null((Life.Sessions[0] with { Session = Session(0) with { Details = SessionDetails.None } }).GramsPerKilogram(Material.SodaAsh));
    }

    [Fact]
    public void Every_session_and_calibration_is_a_dot_of_its_own()
    {
        var drawn = new DrawnSvg(Life.Chart(TimeZoneInfo.Utc).Svg(ChartSize.Page));
        Assert.Superset(
            new HashSet<string> { "Liquor temperature", "Margin of reduction", "pH", "Soda ash for the yarn", "Slope of the electrode", "Offset of the electrode" },
            drawn.Texts.ToHashSet());
        Assert.DoesNotContain("Reducing agent for the yarn", drawn.Texts);
        // Temperature, margin, pH, ORP and soda ash of five sessions; slope and offset of three calibrations; one dot in the key of each of seven panels.
        Assert.Equal(5 * 5 + 2 * 3 + 7, drawn.Dots(Inks.Indigo));
    }

    [Fact]
    public void The_page_has_a_row_for_each_session_and_calibration()
    {
        var page = Life.Chart(TimeZoneInfo.Utc).Html();
        Assert.Contains("3 Apr 2026", page);
        Assert.Contains("97.4", page.Replace("&#160;", " "));
        Assert.Contains(">ready<", page);
    }

    [Fact]
    public void A_vat_without_a_session_says_so() =>
        Assert.Contains("no session yet", new DrawnSvg((Life with { Sessions = [], Calibrations = [] }).Chart(TimeZoneInfo.Utc).Svg(ChartSize.Phone)).Texts);
}
