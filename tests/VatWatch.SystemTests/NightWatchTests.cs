using System.Globalization;
using System.Text.Json;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests;

/// <summary>
/// The whole night by the built binary: an instrument in another process on a pseudo-terminal, a real mosquitto, foreign clients.
/// </summary>
public sealed class NightWatchTests
{
    private const string Topics = "vatwatch/test-studio";
    private static readonly TimeSpan StopLimit = TimeSpan.FromSeconds(20);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    [Fact]
    public async Task From_a_warming_instrument_to_an_acknowledged_alarm_over_a_kill_to_the_chart_of_the_night()
    {
        using var studio = new Studio();
        await using var broker = await MosquittoBroker.StartAsync();
        await using var instrument = await PtyInstrument.AskedAsync();
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(broker.Port), Topics + "/#");
        studio.WriteBenchConfig(instrument.Port, string.Create(CultureInfo.InvariantCulture, $$"""{ "broker": "mqtt://127.0.0.1:{{broker.Port}}" }"""));
        await instrument.TellAsync("set T 48.2");
        await instrument.TellAsync("set ORP -705");
        await instrument.TellAsync("set PH 10.02");

        DateTimeOffset killed;
        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await phone.WaitForAsync(Topics + "/status", message => message.Payload == "online", Patience);
            await phone.WaitForAsync(Topics + "/weld-yard/measurement/liquor", message => message.Payload.Contains("48.2", StringComparison.Ordinal), Patience);

            // The instrument ramps past the limit of 120 °F = 48.9 °C.
            await instrument.TellAsync("ramp T 0.4");
            var raised = await phone.WaitForAsync(Topics + "/weld-yard/alarm/overheat", StateIs("unacknowledged"), Patience);
            Assert.Equal("critical", Field(raised, "priority"));
            Assert.Equal("°F", Field(raised, "unit"));
            var sentence = await phone.WaitForAsync(Topics + "/weld-yard/notification", limit: Patience);
            Assert.Contains("Weld Yard vat", sentence.Payload, StringComparison.Ordinal);
            Assert.False(sentence.Retained);
            await instrument.TellAsync("ramp T 0");

            await MosquittoPub.SendAsync(new MqttAccess(broker.Port), Topics + "/weld-yard/command/acknowledge", """{"alarm":"overheat","by":"Ada"}""");
            var seen = await phone.WaitForAsync(Topics + "/weld-yard/alarm/overheat", StateIs("acknowledged"), Patience);
            Assert.Equal("Ada", Field(seen, "acknowledgedBy"));

            await instrument.TellAsync("silent on");
            await phone.WaitForAsync(Topics + "/weld-yard/alarm/probe-silent.liquor", StateIs("unacknowledged"), Patience);
            await instrument.TellAsync("silent off");
            await phone.WaitForAsync(Topics + "/weld-yard/alarm/probe-silent.liquor", StateIs("returned-unacknowledged"), Patience);
            await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
            killed = DateTimeOffset.UtcNow;
            await watch.KillAsync();
        }

        await phone.WaitForAsync(Topics + "/status", message => message.Payload == "offline", Patience);
        var before = await ReadingsAsync(studio);
        AssertComplete(before, killed);

        await using (var watch = VatWatchProcess.Start("run", "--config", studio.Config))
        {
            await Eventually.TrueAsync(() => phone.Messages.Count(message => message.Topic == Topics + "/status" && message.Payload == "online") == 2, "online again", Patience);
            using var late = await MosquittoSub.StartAsync(new MqttAccess(broker.Port), Topics + "/weld-yard/alarm/overheat");
            var still = await late.WaitForAsync(Topics + "/weld-yard/alarm/overheat", limit: Patience);
            Assert.Equal("acknowledged", Field(still, "state"));
            Assert.Equal("Ada", Field(still, "acknowledgedBy"));
            await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
            Assert.Equal(0, await watch.StopAsync(StopLimit));
        }

        var after = await ReadingsAsync(studio);
        Assert.True(after.Count > before.Count, $"{after.Count} readings after, {before.Count} before");
        Assert.Equal(before, after.Take(before.Count));

        var chart = Path.Combine(studio.Folder, "night.png");
        await SucceedAsync("report", "--config", studio.Config, "--vat", "weld-yard", "--out", chart);
        Assert.Equal([0x89, (byte)'P', (byte)'N', (byte)'G'], File.ReadAllBytes(chart)[..4]);
        var drawing = Path.Combine(studio.Folder, "night.svg");
        await SucceedAsync("report", "--config", studio.Config, "--vat", "weld-yard", "--out", drawing);
        Assert.Contains("overheat", File.ReadAllText(drawing), StringComparison.Ordinal);
    }

    /// <summary>
    /// The recorded log has no hole: a reading of the liquor every 200 ms (some slack for a busy machine) until the instrument falls silent,
    /// and again up to one commit interval (1 s here) before the kill.
    /// </summary>
    private static void AssertComplete(IReadOnlyList<string> rows, DateTimeOffset killed)
    {
        var liquor = rows.Where(row => row.Contains(",liquor,", StringComparison.Ordinal)).ToList();
        var spoken = liquor.TakeWhile(row => !row.Contains("missing", StringComparison.Ordinal)).Select(TimeOf).ToList();
        Assert.True(spoken.Count > 20, $"{spoken.Count} readings of the liquor before the silence");
        var longest = spoken.Zip(spoken.Skip(1), (a, b) => b - a).Max();
        Assert.True(longest < TimeSpan.FromSeconds(3), $"longest gap {longest}");
        Assert.Contains(liquor, row => row.Contains("missing", StringComparison.Ordinal));
        Assert.True(killed - TimeOf(liquor[^1]) < TimeSpan.FromSeconds(4), $"killed at {killed:o}, last reading {liquor[^1]}");
    }

    private static DateTimeOffset TimeOf(string row) => DateTimeOffset.Parse(row.Split(',')[0], CultureInfo.InvariantCulture);

    private static async Task<IReadOnlyList<string>> ReadingsAsync(Studio studio)
    {
        var file = Path.Combine(studio.Folder, "night.csv");
        await SucceedAsync("report", "--config", studio.Config, "--vat", "weld-yard", "--out", file);
        return File.ReadAllLines(file)[1..];
    }

    private static async Task SucceedAsync(params string[] arguments)
    {
        var (code, output, errors) = await VatWatchProcess.RunAsync(Patience, arguments);
        Assert.True(code == 0, $"{string.Join(' ', arguments)} gave {code}: {output} {errors}");
    }

    private static Func<ForeignMessage, bool> StateIs(string state) => message => Field(message, "state") == state;

    private static string? Field(ForeignMessage message, string name)
    {
        using var document = JsonDocument.Parse(message.Payload);
        return document.RootElement.GetProperty(name).GetString();
    }
}
