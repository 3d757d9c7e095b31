using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json;
using VatWatch.Daemon.Web;
using VatWatch.Daemon.Web.Security;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Web;

public sealed class WebOptionsTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("vatwatch-web-").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    [Fact]
    public void Without_a_section_it_listens_on_this_computer_only()
    {
        var options = WebOptions.Read(null);

        Assert.Equal(WebOptions.DefaultListen, options.Url);
        Assert.True(options.IsLoopback);
        Assert.Null(options.Passwords);
        Assert.False(options.IsGuarded);
    }

    [Theory]
    [InlineData("http://127.0.0.1:8080", "127.0.0.1:8080")]
    [InlineData("http://localhost:9000/", "127.0.0.1:9000")]
    [InlineData("http://[::1]:9000", "[::1]:9000")]
    public void A_loopback_address_needs_no_password(string listen, string expected)
    {
        var (options, faults) = Read($$"""{ "listen": "{{listen}}" }""");

        Assert.Empty(faults);
        Assert.Equal(expected, options.Listen.ToString());
    }

    [Theory]
    [InlineData("http://0.0.0.0:8080")]
    [InlineData("http://*:8080")]
    [InlineData("http://192.168.1.20:8080")]
    [InlineData("http://[::]:8080")]
    public void Beyond_loopback_it_refuses_without_a_password(string listen)
    {
        var (_, faults) = Read($$"""{ "listen": "{{listen}}" }""");

        Assert.StartsWith("web.passwordFile is missing; wanted a file with a password hash", Assert.Single(faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_host_name_for_others_also_needs_a_password()
    {
        var (_, faults) = Read("""{ "hostName": "vats.example" }""");

        Assert.Contains("hostName", Assert.Single(faults), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{ "hostName": "vats.example", "passwordFile": "password" }""", "https://vats.example/")]
    [InlineData("""{ "hostName": "vats.lan", "listen": "http://0.0.0.0:8080", "passwordFile": "password" }""", "http://vats.lan:8080/")]
    [InlineData("""{ "listen": "http://0.0.0.0:8080", "passwordFile": "password" }""", null)]
    public void Messages_lead_to_pages_by_the_host_name_behind_a_proxy_or_at_the_port(string json, string? root)
    {
        File.WriteAllText(Path.Combine(_folder, "password"), PasswordHash.Of("woad and weld", PasswordHash.LeastIterations) + "\n");

        var (options, faults) = Read(json);

        Assert.Empty(faults);
        Assert.Equal(root, options.PagesRoot?.AbsoluteUri);
    }

    [Fact]
    public void With_a_password_file_it_listens_anywhere()
    {
        File.WriteAllText(Path.Combine(_folder, "password"), PasswordHash.Of("woad and weld", PasswordHash.LeastIterations) + "\n");

        var (options, faults) = Read("""{ "listen": "http://0.0.0.0:8080", "passwordFile": "password" }""");

        Assert.Empty(faults);
        Assert.Equal(Role.Operator, options.Passwords!.RoleOf("woad and weld"));
    }

    [Theory]
    [InlineData("8080")]
    [InlineData("http://127.0.0.1")]
    [InlineData("http://127.0.0.1:0")]
    [InlineData("http://127.0.0.1:65536")]
    [InlineData("http://127.1:80")]
    [InlineData("ftp://127.0.0.1:21")]
    [InlineData("http://some.name:8080")]
    [InlineData("http://:8080")]
    [InlineData("http://127.0.0.1:8080/path")]
    public void A_bad_address_is_told_with_what_was_seen_and_wanted(string listen)
    {
        var (_, faults) = Read($$"""{ "listen": "{{listen}}" }""");

        Assert.StartsWith($"web.listen is \"{listen}\"; wanted an address such as", Assert.Single(faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_password_file_that_is_missing_or_holds_a_plain_password_is_told()
    {
        File.WriteAllText(Path.Combine(_folder, "plain"), "woad and weld");

        Assert.Contains("and there is no file ", Assert.Single(Read("""{ "passwordFile": "nowhere" }""").Faults), StringComparison.Ordinal);
        Assert.Contains("holds something else", Assert.Single(Read("""{ "passwordFile": "plain" }""").Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_key_that_everybody_may_read_and_a_device_for_a_certificate_are_refused_at_once()
    {
        const string https = """{ "listen": "https://127.0.0.1:8443", "certificateFile": "c.pem", "keyFile": "k.pem" }""";
        WriteCertificate();
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(_folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute | UnixFileMode.OtherRead | UnixFileMode.OtherExecute);
            File.SetUnixFileMode(Path.Combine(_folder, "k.pem"), UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead);
        }

        var told = Assert.Single(Read(https).Faults);
        Assert.Contains("web.keyFile", told, StringComparison.Ordinal);
        Assert.Contains("may be read by every user", told, StringComparison.Ordinal);
        Assert.Contains("a pipe or a device", Assert.Single(Read(https.Replace("c.pem", "/dev/zero", StringComparison.Ordinal)).Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void A_certificate_goes_with_https_only_and_must_load()
    {
        Assert.Equal(2, Read("""{ "certificateFile": "c.pem", "keyFile": "k.pem" }""").Faults.Count);
        Assert.Equal(2, Read("""{ "listen": "https://127.0.0.1:8443" }""").Faults.Count);
        const string https = """{ "listen": "https://127.0.0.1:8443", "certificateFile": "c.pem", "keyFile": "k.pem" }""";
        Assert.Contains("and there is no file ", Assert.Single(Read(https).Faults), StringComparison.Ordinal);

        WriteCertificate();
        File.Copy(Path.Combine(_folder, "k.pem"), Path.Combine(_folder, "sound.pem"));
        File.WriteAllText(Path.Combine(_folder, "k.pem"), "no key");
        Assert.Contains("cannot be loaded", Assert.Single(Read(https).Faults), StringComparison.Ordinal);
        File.Move(Path.Combine(_folder, "sound.pem"), Path.Combine(_folder, "k.pem"), overwrite: true);
        var (options, faults) = Read("""{ "listen": "https://127.0.0.1:8443", "certificateFile": "c.pem", "keyFile": "k.pem" }""");
        Assert.Empty(faults);
        Assert.True(options.Certificate!.HasPrivateKey);
    }

    [Fact]
    public void A_password_of_viewers_and_tokens_stand_beside_that_of_operators()
    {
        var (token, line) = ApiToken.Make("press", Role.Viewer);
        File.WriteAllText(Path.Combine(_folder, "operators"), PasswordHash.Of("woad and weld", PasswordHash.LeastIterations) + "\n");
        File.WriteAllText(Path.Combine(_folder, "viewers"), PasswordHash.Of("only looking on", PasswordHash.LeastIterations) + "\n");
        File.WriteAllText(Path.Combine(_folder, "tokens"), $"# programs\n\n{line}\n");

        var (options, faults) = Read("""{ "passwordFile": "operators", "viewerPasswordFile": "viewers", "tokenFile": "tokens" }""");

        Assert.Empty(faults);
        Assert.Equal(Role.Viewer, options.Passwords!.RoleOf("only looking on"));
        Assert.True(Assert.Single(options.Tokens).Matches(token));
        Assert.Equal(2, Read("""{ "viewerPasswordFile": "viewers", "tokenFile": "tokens" }""").Faults.Count);
    }

    [Fact]
    public void A_token_file_with_something_else_is_told_by_line_and_never_quoted()
    {
        var line = ApiToken.Make("press", Role.Viewer).Line;
        File.WriteAllText(Path.Combine(_folder, "operators"), PasswordHash.Of("woad and weld", PasswordHash.LeastIterations) + "\n");
        File.WriteAllText(Path.Combine(_folder, "tokens"), $"{line}\n{line}\npress viewer vatwatch-secret\n");

        var faults = Read("""{ "passwordFile": "operators", "tokenFile": "tokens" }""").Faults;

        Assert.Equal(2, faults.Count);
        Assert.Contains("web.tokenFile is the name \"press\" a second time in line 2", faults[0], StringComparison.Ordinal);
        Assert.Contains("web.tokenFile is something else in line 3", faults[1], StringComparison.Ordinal);
        Assert.DoesNotContain(faults, fault => fault.Contains("secret", StringComparison.Ordinal));
    }

    [Fact]
    public void Client_certificates_are_refused_with_what_to_use_instead() => Assert.Equal(
        "web.clientCaFile is a key of earlier versions; wanted \"passwordFile\", or a reverse proxy that asks for client certificates, named by \"proxy\".",
        Assert.Single(Read("""{ "clientCaFile": "c.pem" }""").Faults));

    [Fact]
    public void A_proxy_is_named_by_its_address()
    {
        Assert.Equal(IPAddress.Parse("192.0.2.7"), Read("""{ "proxy": "::ffff:192.0.2.7" }""").Options.Proxy);
        Assert.Contains("web.proxy is \"gate.example\"; wanted the address of your reverse proxy", Assert.Single(Read("""{ "proxy": "gate.example" }""").Faults), StringComparison.Ordinal);
    }

    [Fact]
    public void An_unknown_key_is_a_fault() =>
        Assert.StartsWith("web.port is an unknown key", Assert.Single(Read("""{ "port": 80 }""").Faults), StringComparison.Ordinal);

    private void WriteCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=hill-studio", key, HashAlgorithmName.SHA256);
        using var certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
        File.WriteAllText(Path.Combine(_folder, "c.pem"), certificate.ExportCertificatePem());
        File.WriteAllText(Path.Combine(_folder, "k.pem"), key.ExportPkcs8PrivateKeyPem());
    }

    private (WebOptions Options, List<string> Faults) Read(string json)
    {
        using var document = JsonDocument.Parse(json);
        var faults = new ConfigFaults();
        var options = WebOptions.Read(new ConfigNode(document.RootElement, "web", faults), _folder);
        return (options, [.. faults.All.Select(fault => fault.ToString())]);
    }
}
