using System.Net;
using VatWatch.Calibration;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Web.Bench;

public sealed class BenchFormsTests
{
    private static readonly ProbeId Glass = new("glass");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Two_buffers_are_taken_at_rest_and_the_calibration_is_kept()
    {
        var scenes = Bench();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        Assert.Contains("Probe glass was never calibrated", await browser.GetStringAsync("/calibration", Cancel), StringComparison.Ordinal);

        using var begun = await Forms.SubmitAsync(browser, "/calibration/glass", "/begin", ("label", ""), ("temperature", "25 °C"));
        Assert.Equal(HttpStatusCode.SeeOther, begun.StatusCode);
        Show(scenes, 5.0, seconds: 10);
        Assert.Contains("Watching", await browser.GetStringAsync("/calibration/glass", Cancel), StringComparison.Ordinal);
        using var early = await Forms.SubmitAsync(browser, "/calibration/glass", "/take");
        Assert.Contains("has not been at rest", VatsPageTests.Text(await early.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
        Show(scenes, 5.0, seconds: 40);
        Assert.Contains("At rest at 5.0 mV", await browser.GetStringAsync("/calibration/glass", Cancel), StringComparison.Ordinal);
        using var first = await Forms.SubmitAsync(browser, "/calibration/glass", "/take");
        Assert.Contains("technical 7.00", await browser.GetStringAsync("/calibration/glass", Cancel), StringComparison.Ordinal);

        using var next = await Forms.SubmitAsync(browser, "/calibration/glass", "/begin", ("label", "10.01"), ("temperature", "77"));
        Show(scenes, -170.0, seconds: 45);
        using var second = await Forms.SubmitAsync(browser, "/calibration/glass", "/take");
        var found = VatsPageTests.Text(await browser.GetStringAsync("/calibration/glass", Cancel));
        Assert.Contains("slope 98.", found, StringComparison.Ordinal);
        using var kept = await Forms.SubmitAsync(browser, "/calibration/glass", "/keep");

        Assert.Equal((HttpStatusCode.SeeOther, "/calibration"), (kept.StatusCode, kept.Headers.Location!.OriginalString));
        var ph = Assert.IsType<PhCalibration>(Calibrations(pages).InUse(Glass)!.Calibration);
        Assert.Equal([5.0, -170.0], ph.Points.Select(point => point.Point.ElectrodeMillivolts));
        Assert.Contains("In use: number 1", VatsPageTests.Text(await browser.GetStringAsync("/calibration", Cancel)), StringComparison.Ordinal);
        Assert.DoesNotContain("technical 10.01:", await browser.GetStringAsync("/calibration/glass", Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_outside_the_limits_is_kept_only_when_told_to()
    {
        var scenes = Bench();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        using var begun = await Forms.SubmitAsync(browser, "/calibration/glass", "/begin", ("label", "7.00"), ("temperature", "25 °C"));
        Show(scenes, 80.0, seconds: 45);
        using var taken = await Forms.SubmitAsync(browser, "/calibration/glass", "/take");

        using var refused = await Forms.SubmitAsync(browser, "/calibration/glass", "/keep");
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Contains("outside its limits and was not stored", VatsPageTests.Text(await refused.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
        Assert.Null(Calibrations(pages).InUse(Glass));
        using var kept = await Forms.SubmitAsync(browser, "/calibration/glass", "/keep", ("keep", "yes"));
        Assert.Equal(HttpStatusCode.SeeOther, kept.StatusCode);
        Assert.NotNull(Calibrations(pages).InUse(Glass));
    }

    [Fact]
    public async Task An_orp_probe_is_held_against_its_check_solution()
    {
        var scenes = Bench();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        using var begun = await Forms.SubmitAsync(browser, "/calibration/platinum", "/begin", ("solution", "zobell"), ("temperature", "25 °C"));
        Show(scenes, 214, seconds: 45, probe: "platinum");
        using var taken = await Forms.SubmitAsync(browser, "/calibration/platinum", "/take");
        using var kept = await Forms.SubmitAsync(browser, "/calibration/platinum", "/keep");

        Assert.Equal(HttpStatusCode.SeeOther, kept.StatusCode);
        Assert.Equal(214, Assert.IsType<OrpCalibration>(Calibrations(pages).InUse(new("platinum"))!.Calibration).MeasuredMillivolts);
    }

    [Fact]
    public async Task Buffers_that_contradict_each_other_are_told_of()
    {
        var scenes = Bench();
        await using var pages = await RunningPages.StartAsync(scenes);
        using var browser = pages.Browser();
        foreach (var (label, millivolts) in new[] { ("7.00", 5.0), ("10.01", 120.0) })
        {
            using var begun = await Forms.SubmitAsync(browser, "/calibration/glass", "/begin", ("label", label), ("temperature", "25 °C"));
            Show(scenes, millivolts, seconds: 45);
            using var taken = await Forms.SubmitAsync(browser, "/calibration/glass", "/take");
        }

        Assert.Contains("These buffers make no calibration", await browser.GetStringAsync("/calibration/glass", Cancel), StringComparison.Ordinal);
        using var refused = await browser.PostAsync("/calibration/glass/keep", new FormUrlEncodedContent([]), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        using var cleared = await Forms.SubmitAsync(browser, "/calibration/glass", "/clear");
        Assert.DoesNotContain("These buffers make no calibration", await browser.GetStringAsync("/calibration/glass", Cancel), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("label", "9", "wanted one of 4.00, 7.00, 10.01")]
    [InlineData("temperature", "warm", "wanted that of the solution")]
    [InlineData("temperature", "300 °C", "wanted that of the solution")]
    public async Task What_is_no_buffer_or_temperature_is_refused(string field, string value, string says)
    {
        await using var pages = await RunningPages.StartAsync(Bench());
        using var browser = pages.Browser();
        using var reply = await Forms.SubmitAsync(browser, "/calibration/glass", "/begin", ("temperature", "25 °C"), ("label", "7.00"), (field, value));
        Assert.Equal(HttpStatusCode.Conflict, reply.StatusCode);
        Assert.Contains(says, VatsPageTests.Text(await reply.Content.ReadAsStringAsync(Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_finished_ph_is_its_instruments_own_business()
    {
        await using var pages = await RunningPages.StartAsync(Bench());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync("/calibration/finished", Cancel);
        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    [Fact]
    public async Task Slope_and_offset_are_drawn_over_time()
    {
        await using var pages = await RunningPages.StartAsync(Bench());
        using var browser = pages.Browser();
        for (var month = 0; month < 3; month++)
        {
            var point = PhCalibrationPoint.In(VatWatch.Science.Electrodes.Ph.PhBuffers.Technical700, 5 + month, 25);
            var json = CalibrationDocument.Write(PhCalibration.Through([point], PhFitKind.Line, null));
            var utc = TimeProvider.System.GetUtcNow().AddDays(30 * (month - 2));
            await pages.LogBook.Store.WriteAsync(transaction => VatWatch.Store.CalibrationTable.Append(transaction, Glass, utc, json), Cancel);
        }

        var html = await browser.GetStringAsync("/calibration", Cancel);
        Assert.Equal(6, html.Split("<circle").Length - 1);
        Assert.Contains("Offset, mV: 3 calibrations, the last 7", html, StringComparison.Ordinal);
    }

    private static Scenes Bench()
    {
        var scenes = new Scenes();
        var unit = SampleUnit.TryParse(SampleUnit.ElectrodeText, Quantity.Ph, out var electrode) ? electrode : throw new InvalidOperationException();
        ProbeDefinition Probe(string id, Quantity measures, SampleUnit of) => new(new(id), new("madder-lane"), measures, new("bench"), "text-line", TimeSpan.FromSeconds(1), of);
        var vat = Scenes.Vat() with
        {
            Probes =
            [
                Probe("glass", Quantity.Ph, unit), Probe("platinum", Quantity.Orp, SampleUnit.Canonical(Quantity.Orp)), Probe("finished", Quantity.Ph, SampleUnit.Canonical(Quantity.Ph)),
            ],
        };
        scenes.Feed.Vats = [new LiveVat(vat, [], scenes.Live(Scenes.Vat(), VatWatch.Conditions.VatState.Ready, ["x"], 45, 10, -700, 0, 0).Condition, [])];
        return scenes;
    }

    private static void Show(Scenes scenes, double millivolts, int seconds, string probe = "glass")
    {
        for (var second = 0; second < seconds; second++)
        {
            scenes.Time.Advance(TimeSpan.FromSeconds(1));
            scenes.Feed.Tell(new Measurement(
                new("madder-lane"), new(probe), probe == "glass" ? Quantity.Ph : Quantity.Orp, scenes.Clock.Now(), millivolts, null, Quality.Good, null, null));
        }
    }

    private static CalibrationCache Calibrations(RunningPages pages)
    {
        using var reader = pages.LogBook.Store.OpenReader();
        var calibrations = new CalibrationCache();
        StoredCalibrations.Fill(calibrations, reader);
        return calibrations;
    }
}
