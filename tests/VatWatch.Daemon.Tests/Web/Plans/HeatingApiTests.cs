using System.Net;
using System.Text.Json;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Tests.Web.Plans;

public sealed class HeatingApiTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>A cold vat of 40 gal and 1500 W takes 43 °C − 20 °C = 23 K at 1500 W ÷ (151.4 L × 4.15 kJ/(L K)) = 8.6 K/h less losses: about 2 h 50 min.</summary>
    [Fact]
    public async Task A_cold_vat_is_to_be_switched_on_in_time_for_the_morning()
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: false));
        using var browser = pages.Browser();

        using var answer = JsonDocument.Parse(await browser.GetStringAsync("/api/vats/madder-lane/heating?ready=09:20", Cancel));

        var on = answer.RootElement.GetProperty("switchOn");
        Assert.InRange(6 * 60 - on.GetProperty("middleMinutes").GetDouble(), 2.6 * 60, 3.4 * 60);
        Assert.True(on.GetProperty("earlyMinutes").GetDouble() < on.GetProperty("middleMinutes").GetDouble() && on.GetProperty("middleMinutes").GetDouble() < on.GetProperty("lateMinutes").GetDouble());
        Assert.Equal("the heater is off", answer.RootElement.GetProperty("noSwitchOff").GetString());
    }

    [Fact]
    public async Task A_vat_that_heats_is_told_when_it_may_be_switched_off()
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: true));
        using var browser = pages.Browser();

        using var answer = JsonDocument.Parse(await browser.GetStringAsync("/api/vats/madder-lane/heating?ready=09:20&at=104", Cancel));

        Assert.Equal(40, answer.RootElement.GetProperty("targetC").GetDouble(), 1);
        Assert.Equal("The heater is on.", answer.RootElement.GetProperty("noSwitchOn").GetString());
        Assert.InRange(answer.RootElement.GetProperty("switchOff").GetProperty("middleMinutes").GetDouble(), 60, 6 * 60);
    }

    [Theory]
    [InlineData("ready=25:00", "Ready at is '25:00'; wanted a time of day")]
    [InlineData("ready=7", "Ready at is '7'; wanted a time of day")]
    [InlineData("at=NaN", "Liquor at is 'NaN'; wanted a number of °F from 68.0 °F")]
    [InlineData("at=-400", "Liquor at is '-400'")]
    public async Task A_question_that_cannot_be_meant_is_refused(string query, string says)
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: false));
        using var browser = pages.Browser();
        using var answer = await browser.GetAsync($"/api/vats/madder-lane/heating?{query}", Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains(says, problem.RootElement.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("at=130", "is not below the limit of Madder Lane vat, 120.2 °F")]
    [InlineData("ready=04:00", "cannot be at 109.4 °F by 04:00")]
    public async Task What_the_vat_cannot_do_is_said(string query, string says)
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: false));
        using var browser = pages.Browser();
        using var answer = JsonDocument.Parse(await browser.GetStringAsync($"/api/vats/madder-lane/heating?{query}", Cancel));
        Assert.Equal(JsonValueKind.Null, answer.RootElement.GetProperty("switchOn").ValueKind);
        Assert.Contains(says, answer.RootElement.GetProperty("noSwitchOn").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_temperature_it_says_so()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        Assert.Contains("is not known", await browser.GetStringAsync("/api/vats/madder-lane/heating", Cancel), StringComparison.Ordinal);
        using var missing = await browser.GetAsync("/api/vats/elsewhere/heating", Cancel);
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    /// <summary>A vat at 20 °C, or cooling in a room of 20 °C, told whether its heater is on, as a real assessor sees it after half an hour.</summary>
    internal static Scenes WithHeat(bool heaterOn, double coldC = 20, double? plateWatts = 1500)
    {
        var scenes = new Scenes();
        var vat = Scenes.Vat() with { HeaterWatts = plateWatts };
        var assessor = new ConditionAssessor(vat, DisplayUnits.Us);
        var now = scenes.Clock.Now();
        for (var seconds = -1800; seconds <= 0; seconds += 5)
        {
            var stamp = now.Plus(TimeSpan.FromSeconds(seconds));
            var liquorC = heaterOn ? 24 + 8.4 * seconds / 3600 : coldC - 0.035 * (coldC - 20) * seconds / 3600;
            assessor.Accept(One(vat, "madder-lane-heater", Quantity.Heater, heaterOn ? 1 : 0));
            assessor.Accept(One(vat, "madder-lane-liquor", Quantity.Temperature, liquorC + 0.02 * (seconds / 5 % 3 - 1)));
            Measurement One(VatDefinition of, string probe, Quantity measures, double value) =>
                new(of.Id, new(probe), measures, stamp, value, value, Quality.Good, null, null);
        }

        scenes.Feed.Vats = [new LiveVat(vat, [], assessor.Assess(now), [])];
        return scenes;
    }
}
