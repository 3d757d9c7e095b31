using System.Net;

namespace VatWatch.Daemon.Tests.Web.Health;

public sealed class HealthEndpointsTests
{
    [Fact]
    public async Task Ready_is_200_while_every_stage_is_well_and_503_with_the_sentence_when_one_is_not()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();

        Assert.Equal("""{"ready":true,"stages":[{"stage":"store","ok":true,"sentence":"Writing."}]}""",
            await browser.GetStringAsync("/health/ready", TestContext.Current.CancellationToken));

        pages.Readiness.Stages = [.. pages.Readiness.Stages, new("broker", false, "No connection for 40 s.")];
        using var reply = await browser.GetAsync("/health/ready", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, reply.StatusCode);
        Assert.Contains("No connection for 40 s.", await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal("alive\n", await browser.GetStringAsync("/health/live", TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Metrics_hold_what_the_vats_do()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().ProbeSilent());
        using var browser = pages.Browser();

        using var reply = await browser.GetAsync("/metrics", TestContext.Current.CancellationToken);
        var text = await reply.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);

        Assert.Equal("application/openmetrics-text", reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains("vatwatch_liquor_orp_volts{vat=\"madder-lane\",probe=\"madder-lane-orp\"} -0.69\n", text, StringComparison.Ordinal);
        Assert.DoesNotContain("vatwatch_liquor_temperature_celsius{", text, StringComparison.Ordinal);
        Assert.Contains("vatwatch_vat_state{vat=\"madder-lane\",vatwatch_vat_state=\"unknown\"} 1\n", text, StringComparison.Ordinal);
        Assert.Contains("vatwatch_alarms_active{vat=\"daemon\"} 1\n", text, StringComparison.Ordinal);
        Assert.Contains("process_cpu_seconds_total ", text, StringComparison.Ordinal);
        Assert.EndsWith("\n# EOF\n", text, StringComparison.Ordinal);
    }
}
