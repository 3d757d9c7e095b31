using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace VatWatch.Daemon.Tests.Web.Security;

public sealed class ClientCertificatesTests : IDisposable
{
    private const string ForClients = "1.3.6.1.5.5.7.3.2";
    private const string ForServers = "1.3.6.1.5.5.7.3.1";
    private readonly X509Certificate2 _studio = Authority("CN=Studio");
    private readonly X509Certificate2 _stranger = Authority("CN=Stranger");

    public void Dispose()
    {
        _studio.Dispose();
        _stranger.Dispose();
    }

    [Fact]
    public async Task Only_a_certificate_of_the_named_authority_gets_an_answer()
    {
        using var server = Signed(_studio, "CN=localhost", ForServers);
        using var phone = Signed(_studio, "CN=phone", ForClients);
        using var foreign = Signed(_stranger, "CN=phone", ForClients);
        using var wrongUse = Signed(_studio, "CN=phone", ForServers);
        await using var pages = await RunningPages.StartAsync(
            new Scenes().Ready(), new() { Listen = new(IPAddress.Loopback, 0), Certificate = server, ClientAuthorities = [_studio] });

        Assert.Contains("Madder Lane vat", await AskAsync(pages, phone), StringComparison.Ordinal);
        await Assert.ThrowsAnyAsync<HttpRequestException>(() => AskAsync(pages, foreign));
        await Assert.ThrowsAnyAsync<HttpRequestException>(() => AskAsync(pages, wrongUse));
        await Assert.ThrowsAnyAsync<HttpRequestException>(() => AskAsync(pages, null));
    }

    private static async Task<string> AskAsync(RunningPages pages, X509Certificate2? certificate)
    {
        using var handler = new HttpClientHandler { ServerCertificateCustomValidationCallback = HttpClientHandler.DangerousAcceptAnyServerCertificateValidator };
        if (certificate is not null)
        {
            handler.ClientCertificates.Add(certificate);
        }

        using var client = new HttpClient(handler) { BaseAddress = pages.Address };
        return await client.GetStringAsync("/", TestContext.Current.CancellationToken);
    }

    private static X509Certificate2 Authority(string name)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(name, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, true));
        return request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(2));
    }

    private static X509Certificate2 Signed(X509Certificate2 authority, string name, string use)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(name, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], false));
        using var signed = request.Create(authority, DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1), RandomNumberGenerator.GetBytes(8));
        using var whole = signed.CopyWithPrivateKey(key);
        return X509CertificateLoader.LoadPkcs12(whole.Export(X509ContentType.Pkcs12), null);
    }
}
