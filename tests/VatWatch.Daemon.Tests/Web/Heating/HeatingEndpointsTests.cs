using System.Net;
using System.Text.Json;
using VatWatch.Conditions;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Measurements;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Tests.Web.Heating;

public sealed class HeatingEndpointsTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>A cold vat of 40 gal and 1500 W takes 43 °C − 20 °C = 23 K at 1500 W ÷ (151.4 L × 4.15 kJ/(L K)) = 8.6 K/h less losses: about 2 h 50 min.</summary>
    [Fact]
    public async Task A_cold_vat_is_to_be_switched_on_in_time_for_the_morning()
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: false));
        using var browser = pages.Browser();

        using var answer = JsonDocument.Parse(await browser.GetStringAsync("/api/vats/madder-lane/heating?ready=09:20", Cancel));
        var text = VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane/heating?ready=09:20", Cancel));

        var middle = answer.RootElement.GetProperty("switchOn").GetProperty("middleMinutes").GetDouble();
        Assert.InRange(6 * 60 - middle, 2.6 * 60, 3.4 * 60);
        Assert.Equal("the heater is off", answer.RootElement.GetProperty("noSwitchOff").GetString());
        Assert.Contains("For 109.4 °F at 09:20, switch the heater on in 2 h", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_vat_that_heats_is_told_when_it_may_be_switched_off()
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: true));
        using var browser = pages.Browser();

        using var answer = JsonDocument.Parse(await browser.GetStringAsync("/api/vats/madder-lane/heating?ready=09:20&at=104", Cancel));

        Assert.Equal(40, answer.RootElement.GetProperty("targetC").GetDouble(), 1);
        Assert.Equal("the heater is on", answer.RootElement.GetProperty("noSwitchOn").GetString());
        Assert.InRange(answer.RootElement.GetProperty("switchOff").GetProperty("middleMinutes").GetDouble(), 60, 6 * 60);
    }

    [Theory]
    [InlineData("ready=25:00", "The time is not one of a clock")]
    [InlineData("ready=7", "The time is not one of a clock")]
    [InlineData("at=130", "to below the limit of 120.2 °F")]
    [InlineData("at=NaN", "The temperature cannot be meant")]
    [InlineData("at=-400", "The temperature cannot be meant")]
    public async Task A_question_that_cannot_be_meant_is_refused(string query, string says)
    {
        await using var pages = await RunningPages.StartAsync(WithHeat(heaterOn: false));
        using var browser = pages.Browser();

        using var program = await browser.GetAsync($"/api/vats/madder-lane/heating?{query}", Cancel);
        using var person = await browser.GetAsync($"/vats/madder-lane/heating?{query}", Cancel);

        Assert.Equal((HttpStatusCode.BadRequest, HttpStatusCode.BadRequest), (program.StatusCode, person.StatusCode));
        Assert.Contains(says, VatsPageTests.Text(await person.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_temperature_it_says_so()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        Assert.Contains("Nothing can be said", VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane/heating", Cancel)), StringComparison.Ordinal);
        using var missing = await browser.GetAsync("/vats/elsewhere/heating", Cancel);
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
