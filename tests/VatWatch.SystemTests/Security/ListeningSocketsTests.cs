using System.Net;
using System.Net.Sockets;
using System.Text.Json;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Security;

/// <summary>The built binary waits for others exactly where its configuration says, and on the socket of its data folder, whatever its environment says.</summary>
public sealed class ListeningSocketsTests : IDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    /// <summary>What the .NET runtime itself opens, for a debugger of the same user, unless it is told not to.</summary>
    private static readonly Dictionary<string, string> NoDebugger = new() { ["DOTNET_EnableDiagnostics"] = "0" };

    private readonly Studio _studio = new();
    private readonly StudioCertificates _certificates = new();

    public void Dispose()
    {
        _studio.Dispose();
        _certificates.Dispose();
    }

    [Fact]
    public async Task What_a_process_listens_on_is_seen_from_outside()
    {
        using var tcp = new TcpListener(IPAddress.Loopback, 0);
        tcp.Start();
        using var udp = new UdpClient(new IPEndPoint(IPAddress.IPv6Loopback, 0));
        var seen = OwnSockets.Of(Environment.ProcessId);
        Assert.Contains($"tcp {tcp.LocalEndpoint}", seen);
        Assert.Contains($"udp {udp.Client.LocalEndPoint}", seen);
        await Task.CompletedTask;
    }

    [Fact]
    public async Task With_a_broker_elsewhere_only_the_page_listens() => await ListensAsync(
        $$"""{ "broker": "mqtt://127.0.0.1:{{FreePort.Next()}}" }""", $"tcp 127.0.0.1:{_studio.WebPort}");

    [Fact]
    public async Task With_a_broker_of_its_own_page_and_broker_listen_on_loopback()
    {
        var port = FreePort.Next();
        await ListensAsync($$"""{ "broker": "builtin", "listen": "127.0.0.1:{{port}}" }""", $"tcp 127.0.0.1:{Math.Min(port, _studio.WebPort)}", $"tcp 127.0.0.1:{Math.Max(port, _studio.WebPort)}");
    }

    [Fact]
    public async Task A_guarded_page_on_every_address_listens_there_and_nowhere_else()
    {
        await File.WriteAllTextAsync(Path.Combine(_studio.Folder, "operators"), WrittenSecrets.HashOf("woad and weld"), TestContext.Current.CancellationToken);
        await ListensAsync(
            $$"""{ "broker": "mqtt://127.0.0.1:{{FreePort.Next()}}" }""",
            [$"tcp [::]:{_studio.WebPort}"],
            $$"""
            { "listen": "https://*:{{_studio.WebPort}}", "certificateFile": {{JsonSerializer.Serialize(_certificates.ServerCertificate)}}, "keyFile": {{JsonSerializer.Serialize(_certificates.ServerKey)}},
              "passwordFile": {{JsonSerializer.Serialize(Path.Combine(_studio.Folder, "operators"))}} }
            """);
    }

    [Fact]
    public async Task Neither_the_environment_nor_files_of_the_framework_open_another_door()
    {
        var (other, urls, ports) = (FreePort.Next(), FreePort.Next(), FreePort.Next());
        await ListensAsync(
            $$"""{ "broker": "mqtt://127.0.0.1:{{FreePort.Next()}}" }""",
            [$"tcp 127.0.0.1:{_studio.WebPort}"],
            environment: new(NoDebugger)
            {
                ["Kestrel__Endpoints__Other__Url"] = $"http://0.0.0.0:{other}",
                ["ASPNETCORE_URLS"] = $"http://0.0.0.0:{urls}",
                ["ASPNETCORE_HTTP_PORTS"] = $"{ports}",
                ["ASPNETCORE_ENVIRONMENT"] = "Development",
                ["ASPNETCORE_FORWARDEDHEADERS_ENABLED"] = "true",
            });
    }

    [Fact]
    public async Task Without_a_password_nothing_listens_beyond_this_machine()
    {
        _studio.WriteBenchConfig("/nowhere/tty", $$"""{ "broker": "builtin", "listen": "0.0.0.0:{{FreePort.Next()}}" }""");
        var (code, _, errors) = await VatWatchProcess.RunAsync(Patience, "run", "--config", _studio.Config);
        Assert.Equal(78, code);
        Assert.Contains("mqtt.listen is \"0.0.0.0:", errors, StringComparison.Ordinal);

        _studio.WriteBenchConfig("/nowhere/tty", "{}");
        await File.WriteAllTextAsync(_studio.Config, (await File.ReadAllTextAsync(_studio.Config, TestContext.Current.CancellationToken)).Replace("http://127.0.0.1", "http://0.0.0.0", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        (code, _, errors) = await VatWatchProcess.RunAsync(Patience, "run", "--config", _studio.Config);
        Assert.Equal(78, code);
        Assert.Contains("web.passwordFile is missing", errors, StringComparison.Ordinal);
    }

    private Task ListensAsync(string mqtt, params string[] wanted) => ListensAsync(mqtt, wanted, null);

    private async Task ListensAsync(string mqtt, string[] wanted, string? web = null, Dictionary<string, string>? environment = null)
    {
        _studio.WriteBenchConfig("/nowhere/tty", mqtt);
        if (web is not null)
        {
            var text = await File.ReadAllTextAsync(_studio.Config, TestContext.Current.CancellationToken);
            await File.WriteAllTextAsync(_studio.Config, text.Replace($$"""{ "listen": "{{_studio.Url}}" }""", web, StringComparison.Ordinal), TestContext.Current.CancellationToken);
        }

        await using var watch = VatWatchProcess.StartOther(VatWatchProcess.Binary, environment ?? NoDebugger, "run", "--config", _studio.Config);
        await Eventually.TrueAsync(() => watch.HasExited || watch.Output.Contains("Watching", StringComparison.Ordinal), "it watches", Patience);
        Assert.Equal(wanted.Append($"unix {Path.Combine(_studio.Data, "vatwatch.sock")}").Order(StringComparer.Ordinal), OwnSockets.Of(watch.Id).Order(StringComparer.Ordinal));
        Assert.Equal(0, await watch.StopAsync(Patience));
    }
}
