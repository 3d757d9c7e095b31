using VatWatch.Alarms;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>The sample in config/mosquitto, loaded into a real mosquitto with only its paths and port changed.</summary>
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
        MqttAccess phone = new(broker.Port, "phone", "phone-word"), screen = new(broker.Port, "screen", "screen-word");
        await using var link = new RunningLink(RunningLink.To(broker.Port) with { User = "watch", PasswordFile = Path.Combine(broker.Folder, "word-of-watch") });
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
        Assert.NotEqual(0, (await MosquittoPub.SendAsync(new(broker.Port, "phone", "screen-word"), Command, Good)).ExitCode);
    }

    /// <summary>Debian's own file keeps sessions and includes conf.d; the broker refuses to be told twice where.</summary>
    [Fact]
    public async Task It_is_taken_beside_the_main_file_of_Debian()
    {
        await using var broker = await StartAsync("persistence true\npersistence_location /var/lib/mosquitto/\n");
        Assert.Equal(0, (await MosquittoPub.SendAsync(new(broker.Port, "phone", "phone-word"), Command, Good)).ExitCode);
    }

    private static Task<MosquittoBroker> StartAsync(string before = "") => MosquittoBroker.StartAsync(new()
    {
        Configuration = async (folder, port) =>
        {
            var passwords = Path.Combine(folder, "vatwatch-passwords");
            foreach (var user in (string[])["watch", "phone", "screen"])
            {
                await ToolRun.RequireAsync("mosquitto_passwd", ["-b", .. user == "watch" ? ["-c"] : Array.Empty<string>(), passwords, user, $"{user}-word"]);
            }

            await File.WriteAllTextAsync(Path.Combine(folder, "word-of-watch"), "watch-word\n");
            File.Copy(SourceTree.At("config", "mosquitto", "acl.txt"), Path.Combine(folder, "vatwatch-acl.txt"));
            var sample = before + await File.ReadAllTextAsync(SourceTree.At("config", "mosquitto", "vatwatch.conf"));
            return sample
                .Replace("/etc/mosquitto/", $"{folder}/", StringComparison.Ordinal)
                .Replace("/var/lib/mosquitto/", $"{folder}/", StringComparison.Ordinal)
                .Replace("\nlistener 1883 ", $"\nlistener {port} ", StringComparison.Ordinal);
        },
    });
}
