using System.Diagnostics;
using System.Text.RegularExpressions;
using VatWatch.Testing;
using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>More alarms at once than a person can take, and among them the one that matters.</summary>
[Trait("Campaign", "faults")]
[Trait("Starts", "processes")]
public sealed class FloodTests
{
    private const int Electrodes = 14;

    [Fact]
    public async Task An_overheat_in_the_midst_of_a_flood_reaches_the_phone_at_once_under_its_own_vat()
    {
        using var studio = new Studio();
        await using var electrodes = await PtyInstrument.AskedAsync();
        await using var thermometer = await PtyInstrument.AskedAsync();
        await using var broker = await MosquittoBroker.StartAsync();
        studio.WriteConfig(
            $$"""
            "electrodes": { "kind": "serial", "port": "{{electrodes.Port}}", "baud": 9600, "replyTimeout": "100 ms" },
            "thermometer": { "kind": "serial", "port": "{{thermometer.Port}}", "baud": 9600 }
            """,
            Studio.Vat(
                "one",
                string.Join(',', Enumerable.Range(0, Electrodes).Select(Electrode).Append("""
                { "id": "one-t", "measures": "temperature", "bus": "thermometer", "driver": "text-line", "every": "200 ms",
                  "settings": { "ask": "T?\\r\\n", "pattern": "^T=(?<value>[-+0-9.]+)C$", "unit": "°C" } }
                """)),
                """{ "overheat": { "onDelay": "1 s" } }"""));
        await thermometer.TellAsync("set T 45");
        await electrodes.TellAsync("set PH 10");
        studio.UseBroker(broker.Port);
        await using var daemon = await WatchedDaemon.StartAsync(studio);
        using var phone = await MosquittoSub.StartAsync(new MqttAccess(broker.Port), "vatwatch/test-studio/+/notification");

        await electrodes.TellAsync("silent on");
        await phone.WaitForAsync(
            "vatwatch/test-studio/daemon/notification", message => message.Payload.Contains("Too many alarms at once", StringComparison.Ordinal), WatchedDaemon.Patience);
        await thermometer.TellAsync("set T 52");
        var since = Stopwatch.StartNew();
        var told = await phone.WaitForAsync(
            "vatwatch/test-studio/one/notification", message => message.Payload.Contains("limit 49.0 °C", StringComparison.Ordinal), TimeSpan.FromSeconds(10));
        FaultFigures.AtMost("flood", $"{Electrodes} silent probes", "overheat with an on-delay of 1 s on the phone after", since.Elapsed.TotalSeconds, 10, "s");
        Assert.DoesNotContain("probe-silent", told.Payload, StringComparison.Ordinal);

        var before = Named(phone);
        Assert.InRange(before.Count, 1, Electrodes - 1);
        await daemon.Process.KillAsync();
        await using var next = await WatchedDaemon.StartAsync(studio);
        since.Restart();
        await Eventually.TrueAsync(() => Named(phone).Count == Electrodes, $"what was held back is told after the kill, besides {string.Join(", ", before)}", TimeSpan.FromSeconds(20));
        FaultFigures.AtMost("flood", "a kill", $"all {Electrodes} named, {before.Count} of them before, after", since.Elapsed.TotalSeconds, 20, "s");
    }

    /// <summary>The electrodes that the phone has heard of by name.</summary>
    private static HashSet<string> Named(MosquittoSub phone) =>
        [.. Enumerable.Range(0, Electrodes).Select(number => $"ph-{number}").Where(name => phone.Messages.Any(message => Regex.IsMatch(message.Payload, $@"\b{name}\b")))];

    private static string Electrode(int number) => $$"""
        { "id": "ph-{{number}}", "measures": "ph", "bus": "electrodes", "driver": "text-line", "every": "2 s",
          "settings": { "ask": "PH?\\r\\n", "pattern": "^PH=(?<value>[-+0-9.]+)$", "unit": "pH" } }
        """;
}
