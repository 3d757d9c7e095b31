using System.Text.Json;
using System.Text.Json.Nodes;
using VatWatch.Daemon.Web.Security;
using VatWatch.Daemon.Wiring;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Wiring;

/// <summary>Every configuration that ships, and the files that they name under /etc/vatwatch, made anew in a folder of their own.</summary>
public sealed class SampleConfigurations : IDisposable
{
    private const string Installed = "/etc/vatwatch/";
    private static readonly JsonDocumentOptions Lenient = new() { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };
    private readonly string _folder = Directory.CreateTempSubdirectory("samples-").FullName;

    public SampleConfigurations()
    {
        foreach (var name in (string[])["mqtt-password", "mail-password", "influx-token", "siren-secret"])
        {
            File.WriteAllText(Path.Combine(_folder, name), "not-a-real-secret\n");
        }

        File.WriteAllText(Path.Combine(_folder, "web-password"), PasswordHash.Of("not-a-real-password", PasswordHash.LeastIterations).ToString());
        using var certificates = new StudioCertificates();
        File.Copy(certificates.Authority, Path.Combine(_folder, "ca.pem"));
    }

    /// <summary>Paths from the root of the source tree.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "config/vatwatch.json",
        "config/second-watch.json",
        .. Directory.GetFiles(SourceTree.At("config", "examples"), "*.json").Order(StringComparer.Ordinal).Select(file => Path.GetRelativePath(SourceTree.Root, file)),
        .. Directory.GetFiles(SourceTree.At("config", "docker"), "*.json").Order(StringComparer.Ordinal).Select(file => Path.GetRelativePath(SourceTree.Root, file)),
        .. Directory.GetDirectories(SourceTree.At("hardware-notes")).Order(StringComparer.Ordinal).Select(folder => Path.GetRelativePath(SourceTree.Root, Path.Combine(folder, "config.json"))),
    ];

    /// <summary>One of them, without comments, its secrets where this run made them.</summary>
    public JsonObject Open(string path)
    {
        var text = File.ReadAllText(SourceTree.At(path))
            .Replace(Installed, $"{_folder}/", StringComparison.Ordinal)
            .Replace("/run/secrets/", $"{_folder}/", StringComparison.Ordinal);
        return JsonNode.Parse(text, documentOptions: Lenient)!.AsObject();
    }

    /// <summary>What the reader says to it.</summary>
    public static IReadOnlyList<ConfigFault> Read(JsonObject root, ISet<string>? asked = null)
    {
        var faults = new ConfigFaults { Asked = asked };
        if (ConfigFile.Parse(JsonSerializer.SerializeToUtf8Bytes(root), faults) is { } node)
        {
            DaemonConfiguration.Read(node, "configuration");
        }

        return faults.All;
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
