using System.Net.Http.Json;
using System.Text.Json;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests;

/// <summary>A heater that was switched on, told by topic and by interface, through the built binary.</summary>
public sealed class HeaterTests
{
    private const string Vat = "vatwatch/test-studio/weld-yard";
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task What_was_told_of_the_heater_is_in_the_log_book_also_after_a_kill()
    {
        using var studio = new Studio();
        await using var broker = await MosquittoBroker.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(broker.Port), "#");
        studio.WriteBenchConfig(instrument.Port, $$"""{ "broker": "mqtt://127.0.0.1:{{broker.Port}}" }""");
        await instrument.TellAsync("set T 20");
        using var page = new HttpClient { BaseAddress = new(studio.Url) };
        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await phone.WaitForAsync($"{Vat}/condition", limit: Patience);
            await MosquittoPub.SendAsync(new(broker.Port), $"{Vat}/command/heater", """{"heater":"on","readyBy":"09:00","by":"Ada"}""", responseTopic: "phone/1");
            Assert.Equal("""{"accepted":true,"reason":null}""", (await phone.WaitForAsync("phone/1", limit: Patience)).Payload);
            var entry = Assert.Single(await EntriesAsync(page));
            Assert.Equal(("heater-on", "Ada", 9), (entry.GetProperty("kind").GetString(), entry.GetProperty("by").GetString(), entry.GetProperty("readyBy").GetDateTimeOffset().ToLocalTime().Hour));
            await watch.KillAsync();
        }

        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching test-studio", StringComparison.Ordinal), "it watches again", Patience);
            using var off = await page.PostAsJsonAsync("/api/vats/weld-yard/entries", new { by = "Ada", kind = "heater-off" }, TestContext.Current.CancellationToken);
            off.EnsureSuccessStatusCode();
            Assert.Equal(["heater-on", "heater-off"], (await EntriesAsync(page)).Select(entry => entry.GetProperty("kind").GetString()));
            using var odd = await page.PostAsJsonAsync("/api/vats/weld-yard/entries", new { by = "Ada", kind = "heater-on", readyBy = "nine" }, TestContext.Current.CancellationToken);
            Assert.Contains("readyBy is \\u0022nine\\u0022; wanted a local time of day", await odd.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
            Assert.Equal(0, await watch.StopAsync(Patience));
        }
    }

    private static async Task<IReadOnlyList<JsonElement>> EntriesAsync(HttpClient page) =>
        [.. (await page.GetFromJsonAsync<JsonElement>("/api/vats/weld-yard/entries", TestContext.Current.CancellationToken)).EnumerateArray()];
}
