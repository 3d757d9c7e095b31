using VatWatch.Notifications.Mqtt;
using VatWatch.Testing;

namespace VatWatch.Tests.Notifications.Mqtt;

/// <summary>Passwords and TLS against a real mosquitto.</summary>
[Trait("Starts", "processes")]
public sealed class MqttConnectionTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("mqtt-access-").FullName;

    [Fact]
    public async Task A_wrong_password_is_tried_rarely_and_told_without_the_password()
    {
        await using var broker = await MosquittoBroker.StartAsync(new() { User = "watch", Password = "right-horse" });
        await using var link = new RunningLink(RunningLink.To(broker.Port) with { User = "watch", PasswordFile = Secret("wrong-horse") });
        await link.LostAsync();
        await Eventually.TrueAsync(() => !link.States.IsEmpty, "the refusal is told");
        Assert.Equal(
            $"MQTT mqtt://127.0.0.1:{broker.Port}: it refuses user 'watch' (NotAuthorized); look at mqtt.user and the first line of {Path.Combine(_folder, "password")}.",
            link.Link.State.Reason);
        await Task.Delay(2000, TestContext.Current.CancellationToken);
        Assert.Equal(1, link.Link.Counters.FailedAttempts.Value);
        Assert.Single(link.Logged);
        Assert.DoesNotContain(link.Logged, line => line.Contains("horse", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_corrected_password_file_is_used_without_a_restart()
    {
        await using var broker = await MosquittoBroker.StartAsync(new() { User = "watch", Password = "right-horse" });
        var options = RunningLink.To(broker.Port) with { User = "watch", PasswordFile = Secret("wrong-horse") };
        await using var link = new RunningLink(options, RunningLink.Short with { FirstRefusedRetry = TimeSpan.FromMilliseconds(300) });
        await Eventually.TrueAsync(() => !link.States.IsEmpty, "the refusal is told");
        Secret("right-horse\nsecond line is a remark");
        await link.ConnectedAsync();
    }

    [Theory]
    [InlineData(null, "there is no file")]
    [InlineData("\n", "is empty; wanted the password")]
    [InlineData("", "is empty, or a pipe or a device")]
    public async Task A_useless_password_file_is_told(string? content, string told)
    {
        var file = content is null ? Path.Combine(_folder, "none") : Secret(content);
        await using var link = new RunningLink(RunningLink.To(FreePort.Next()) with { User = "watch", PasswordFile = file });
        await Eventually.TrueAsync(() => link.Link.State.Reason!.Contains(told, StringComparison.Ordinal), told);
        Assert.Contains(file, link.Link.State.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tls_with_an_authority_of_ones_own_and_a_password_works()
    {
        using var certificates = new StudioCertificates();
        await using var broker = await MosquittoBroker.StartAsync(new() { User = "watch", Password = "right-horse", Certificates = certificates });
        var options = new MqttOptions
        {
            IsBuiltin = false,
            Tls = true,
            Host = "localhost",
            Port = broker.Port,
            CaFile = certificates.Authority,
            User = "watch",
            PasswordFile = Secret("right-horse"),
        };
        await using var link = new RunningLink(options);
        using var phone = await MosquittoSub.StartAsync(new(broker.Port, "watch", "right-horse", certificates.Authority), "vatwatch/#");
        link.Tell(1);
        await phone.WaitForAsync("vatwatch/hill-studio/madder-lane/notification");
    }

    [Theory]
    [InlineData("another authority")]
    [InlineData("the machine's authorities")]
    [InlineData("another name")]
    public async Task A_certificate_that_does_not_fit_is_refused_rarely_and_told(string wrong)
    {
        using var certificates = new StudioCertificates(wrong == "another name" ? "broker.example" : "localhost");
        using var other = new StudioCertificates();
        await using var broker = await MosquittoBroker.StartAsync(new() { Certificates = certificates });
        var authority = wrong switch { "another authority" => other.Authority, "another name" => certificates.Authority, _ => null };
        await using var link = new RunningLink(new() { IsBuiltin = false, Tls = true, Host = "localhost", Port = broker.Port, CaFile = authority });
        await Eventually.TrueAsync(() => !link.States.IsEmpty, "it is told");
        Assert.Contains("its certificate or encryption was not accepted", link.Link.State.Reason, StringComparison.Ordinal);
        await Task.Delay(1000, TestContext.Current.CancellationToken);
        Assert.Equal(1, link.Link.Counters.FailedAttempts.Value);
    }

    [Theory]
    [InlineData("127.0.0.1", "nothing listens there")]
    [InlineData("no-such-host.invalid", "its name is not known")] // RFC 2606 §2: .invalid never resolves
    public async Task A_broker_that_is_not_there_is_told_once_however_often_it_is_tried(string host, string told)
    {
        await using var link = new RunningLink(new() { IsBuiltin = false, Host = host, Port = FreePort.Next() });
        await Eventually.TrueAsync(() => link.Link.Counters.FailedAttempts.Value >= 3, "it is tried again");
        Assert.Contains(told, link.Link.State.Reason, StringComparison.Ordinal);
        Assert.Single(link.Logged);
        Assert.Single(link.States);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private string Secret(string content)
    {
        var file = Path.Combine(_folder, "password");
        File.WriteAllText(file, content);
        return file;
    }
}
