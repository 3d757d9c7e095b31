using System.Text.Json.Nodes;
using System.Xml.Linq;
using VatWatch.Testing;

namespace VatWatch.SystemTests.Package;

/// <summary>What can be checked of docker-compose.yml without Docker: its parts fit together, and broker and secrets work outside of it.</summary>
public sealed class ComposeTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("compose-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Every_file_volume_and_secret_that_it_names_is_there()
    {
        var compose = await ReadAsync();
        var services = compose["services"]!.AsObject();
        Assert.Equal(["broker", "influxdb", "vatwatch"], services.Select(service => service.Key).Order(StringComparer.Ordinal));
        Assert.Null(services["vatwatch"]!["depends_on"]);
        foreach (var (name, service) in services)
        {
            Assert.NotNull(service!["healthcheck"]?["test"]);
            Assert.NotNull(service["mem_limit"]);
            Assert.NotNull(service["logging"]?["options"]?["max-size"]);
            foreach (var mount in service["volumes"]!.AsArray().Select(volume => volume!.GetValue<string>().Split(':')[0]))
            {
                Assert.True(mount.StartsWith("./", StringComparison.Ordinal) ? File.Exists(SourceTree.At(mount)) : compose["volumes"]!.AsObject().ContainsKey(mount), $"{name}: {mount}");
            }

            foreach (var secret in service["secrets"]!.AsArray().Select(secret => secret!.GetValue<string>()))
            {
                Assert.True(compose["secrets"]!.AsObject().ContainsKey(secret), $"{name}: {secret}");
            }

            foreach (var other in service["depends_on"]?.AsObject().Select(other => other.Key) ?? [])
            {
                Assert.True(services.ContainsKey(other), $"{name} depends on {other}");
            }
        }

        Assert.True(File.Exists(SourceTree.At(services["vatwatch"]!["build"]!["dockerfile"]!.GetValue<string>())));
    }

    [Fact]
    public async Task The_image_takes_one_package_by_the_version_that_is_built_and_its_user_has_fixed_numbers()
    {
        var lines = await File.ReadAllLinesAsync(SourceTree.At("config", "docker", "Dockerfile"), TestContext.Current.CancellationToken);
        var version = XDocument.Load(SourceTree.At("Directory.Build.props")).Descendants("Version").Single().Value;
        Assert.Contains($"ARG VERSION={version}", lines);
        Assert.Contains(lines, line => line.StartsWith("COPY artifacts/vatwatch_${VERSION}_${TARGETARCH}.deb ", StringComparison.Ordinal));
        Assert.Contains("USER ${ID}:${ID}", lines);
        var id = Assert.Single(lines, line => line.StartsWith("ARG ID=", StringComparison.Ordinal))["ARG ID=".Length..];
        Assert.Contains($"chown -R {id}:{id} ", await File.ReadAllTextAsync(SourceTree.At("docker-compose.yml"), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_secrets_script_makes_every_secret_once_and_the_daemon_takes_them()
    {
        await MakeSecretsAsync();
        var before = await File.ReadAllTextAsync(Path.Combine(_folder, "mqtt-password"), TestContext.Current.CancellationToken);
        await MakeSecretsAsync();
        Assert.Equal(before, await File.ReadAllTextAsync(Path.Combine(_folder, "mqtt-password"), TestContext.Current.CancellationToken));
        foreach (var secret in (await ReadAsync())["secrets"]!.AsObject().Select(secret => Path.GetFileName(secret.Value!["file"]!.GetValue<string>())))
        {
            Assert.True(new FileInfo(Path.Combine(_folder, secret)).Length > 20, secret);
        }

        var config = Path.Combine(_folder, "vatwatch.json");
        var text = await File.ReadAllTextAsync(SourceTree.At("config", "docker", "vatwatch.json"), TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(config, text.Replace("/run/secrets/", $"{_folder}/", StringComparison.Ordinal), TestContext.Current.CancellationToken);
        var (code, _, errors) = await VatWatchProcess.RunAsync(TimeSpan.FromSeconds(60), "check", "--config", config);
        Assert.Equal((0, ""), (code, errors));
    }

    [Fact]
    public async Task The_broker_as_it_is_started_there_lets_in_who_has_a_password_and_nobody_else()
    {
        var secrets = Directory.CreateDirectory(Path.Combine(_folder, "secrets")).FullName;
        foreach (var name in (string[])["mqtt-password", "phone-password", "screen-password"])
        {
            await File.WriteAllTextAsync(Path.Combine(secrets, name), $"{name}-word\n", TestContext.Current.CancellationToken);
        }

        var config = Directory.CreateDirectory(Path.Combine(_folder, "config")).FullName;
        File.Copy(SourceTree.At("config", "mosquitto", "acl.txt"), Path.Combine(config, "acl.txt"));
        await File.WriteAllTextAsync(Path.Combine(config, "mosquitto.conf"), "", TestContext.Current.CancellationToken);
        await using var broker = await MosquittoBroker.StartAsync(new()
        {
            Configuration = async (data, port) =>
            {
                // The script is told to become "true" in place of the broker, so that the broker is this rig's own.
                var start = (await File.ReadAllTextAsync(SourceTree.At("config", "docker", "broker-start"))).Replace("exec mosquitto ", "exec true ", StringComparison.Ordinal)
                    .Replace("chown -R mosquitto", "true", StringComparison.Ordinal);
                var script = Path.Combine(_folder, "broker-start");
                await File.WriteAllTextAsync(script, start);
                await ToolRun.RequireAsync("env", [$"BROKER_DATA={data}", $"BROKER_CONFIG={config}", $"BROKER_SECRETS={secrets}", "sh", script]);
                return (await File.ReadAllTextAsync(SourceTree.At("config", "docker", "mosquitto.conf")))
                    .Replace("/mosquitto/data/", $"{data}/", StringComparison.Ordinal)
                    .Replace("\nlistener 1883", $"\nlistener {port} 127.0.0.1", StringComparison.Ordinal)
                    .Replace("log_dest stderr", "", StringComparison.Ordinal);
            },
        });
        const string topic = "vatwatch/hill-studio/madder-lane/command/acknowledge";
        Assert.Equal(0, (await MosquittoPub.SendAsync(new(broker.Port, "phone", "phone-password-word"), topic, "{}")).ExitCode);
        Assert.Equal(0, (await MosquittoPub.SendAsync(new(broker.Port, "watch", "mqtt-password-word"), topic, "{}")).ExitCode);
        Assert.NotEqual(0, (await MosquittoPub.SendAsync(new(broker.Port), topic, "{}")).ExitCode);
        Assert.NotEqual(0, (await MosquittoPub.SendAsync(new(broker.Port, "phone", "guess"), topic, "{}")).ExitCode);
    }

    private Task<ToolRun> MakeSecretsAsync() =>
        ToolRun.RequireAsync("env", [$"VATWATCH={VatWatchProcess.Binary}", "sh", SourceTree.At("config", "docker", "make-secrets"), _folder]);

    private static async Task<JsonObject> ReadAsync()
    {
        var run = await ToolRun.RequireAsync(
            "/usr/bin/python3", ["-c", "import json, sys, yaml; json.dump(yaml.safe_load(open(sys.argv[1])), sys.stdout)", SourceTree.At("docker-compose.yml")]);
        return JsonNode.Parse(run.Output)!.AsObject();
    }
}
