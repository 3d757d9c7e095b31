using System.Globalization;
using VatWatch.Alarms;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>What config/mosquitto/set-up makes, loaded into a real mosquitto with only its ports changed; phone and screen come by TLS.</summary>
[Trait("Starts", "processes")]
public sealed class SampleBrokerTests
{
    private const string Site = "vatwatch/hill-studio";
    private const string Command = $"{Site}/madder-lane/command/acknowledge";
    private const string Good = """{"alarm":"overheat","by":"Ada"}""";

    [Fact]
    public async Task The_daemon_tells_all_a_phone_reads_and_acknowledges_and_a_screen_only_reads()
    {
        await using var broker = await StartAsync();
        MqttAccess phone = As("phone", broker), screen = As("screen", broker);
        await using var link = new RunningLink(RunningLink.To(broker.Port) with { User = "watch", PasswordFile = Path.Combine(broker.Folder, "mqtt-password") });
        using var seen = await MosquittoSub.StartAsync(phone, $"{Site}/#", awaitReady: false);
        using var wall = await MosquittoSub.StartAsync(screen, $"{Site}/#", awaitReady: false);
        link.Link.Enqueue(RunningLink.Overheat(AlarmState.Unacknowledged));
        await seen.WaitForAsync($"{Site}/status");
        await wall.WaitForAsync($"{Site}/madder-lane/alarm/overheat");
        link.Tell(1);
        await seen.WaitForAsync($"{Site}/madder-lane/notification");

        await MosquittoPub.SendAsync(screen, Command, Good.Replace("Ada", "screen", StringComparison.Ordinal));
        await MosquittoPub.SendAsync(phone, $"{Site}/madder-lane/alarm/overheat", "forged", retain: true);
        Assert.Equal(2, broker.Logged("Denied PUBLISH from"));
        await MosquittoPub.SendAsync(phone, Command, Good, responseTopic: $"{Site}/madder-lane/command/reply/phone");
        await seen.WaitForAsync($"{Site}/madder-lane/command/reply/phone");
        Assert.Equal("Ada", Assert.Single(link.Acknowledged).By);
        Assert.DoesNotContain(wall.Messages, message => message.Payload == "forged");
        Assert.DoesNotContain(link.Logged, line => line.StartsWith("Error", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Nobody_comes_in_without_a_name_and_a_password()
    {
        await using var broker = await StartAsync();
        Assert.NotEqual(0, (await MosquittoPub.SendAsync(new(broker.Port), Command, Good)).ExitCode);
        Assert.NotEqual(0, (await MosquittoPub.SendAsync(As("phone", broker) with { Password = "another" }, Command, Good)).ExitCode);
    }

    /// <summary>Debian's own file keeps sessions and includes conf.d; the broker refuses to be told twice where.</summary>
    [Fact]
    public async Task It_is_taken_beside_the_main_file_of_Debian()
    {
        await using var broker = await StartAsync("persistence true\npersistence_location /var/lib/mosquitto/\n");
        Assert.Equal(0, (await MosquittoPub.SendAsync(As("phone", broker), Command, Good)).ExitCode);
    }

    [Fact]
    public async Task Set_up_again_it_keeps_passwords_and_certificates()
    {
        await using var broker = await StartAsync();
        string[] kept = ["certs/vatwatch-authority.pem", "certs/vatwatch-broker.pem", "mqtt-password", "phone-password", "screen-password"];
        var before = kept.Select(file => File.ReadAllText(Path.Combine(broker.Folder, file))).ToList();
        await SetUpAsync(broker.Folder);
        Assert.Equal(before, kept.Select(file => File.ReadAllText(Path.Combine(broker.Folder, file))));
    }

    private static MqttAccess As(string user, MosquittoBroker broker) =>
        new(TlsPort(broker), user, File.ReadLines(Path.Combine(broker.Folder, $"{user}-password")).First(), Path.Combine(broker.Folder, "broker-authority.pem"));

    private static int TlsPort(MosquittoBroker broker) => int.Parse(File.ReadAllText(Path.Combine(broker.Folder, "tls-port")), CultureInfo.InvariantCulture);

    private static Task<ToolRun> SetUpAsync(string folder) => ToolRun.RequireAsync(
        "env", [$"BROKER_CONFIG={folder}", $"VATWATCH_CONFIG={folder}", "sh", SourceTree.At("config", "mosquitto", "set-up"), "localhost", "127.0.0.1"]);

    private static Task<MosquittoBroker> StartAsync(string before = "") => MosquittoBroker.StartAsync(new()
    {
        Configuration = async (folder, port) =>
        {
            await SetUpAsync(folder);
            var tls = FreePort.Next().ToString(CultureInfo.InvariantCulture);
            await File.WriteAllTextAsync(Path.Combine(folder, "tls-port"), tls);
            var sample = before + await File.ReadAllTextAsync(Path.Combine(folder, "conf.d", "vatwatch.conf"));
            return sample
                .Replace("/var/lib/mosquitto/", $"{folder}/", StringComparison.Ordinal)
                .Replace("\nlistener 1883 ", $"\nlistener {port} ", StringComparison.Ordinal)
                .Replace("\nlistener 8883\n", $"\nlistener {tls} 127.0.0.1\n", StringComparison.Ordinal);
        },
    });
}
