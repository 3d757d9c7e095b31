using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace VatWatch.Testing;

/// <summary>An authority made for one test and a server certificate it has signed for <c>localhost</c>, as PEM files in a folder.</summary>
internal sealed class StudioCertificates : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("certificates-").FullName;

    /// <summary>Makes both; <paramref name="name"/> is what the server certificate is for.</summary>
    public StudioCertificates(string name = "localhost")
    {
        using var authorityKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var authorityRequest = new CertificateRequest("CN=Studio authority", authorityKey, HashAlgorithmName.SHA256);
        authorityRequest.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        authorityRequest.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, true));
        using var authority = authorityRequest.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(2));

        using var serverKey = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var serverRequest = new CertificateRequest($"CN={name}", serverKey, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddDnsName(name);
        if (name == "localhost")
        {
            names.AddIpAddress(IPAddress.Loopback);
        }

        serverRequest.CertificateExtensions.Add(names.Build());
        serverRequest.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid("1.3.6.1.5.5.7.3.1")], false));
        using var server = serverRequest.Create(authority, DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1), [1, 2, 3, 4, 5, 6, 7, 8]);

        File.WriteAllText(Authority, authority.ExportCertificatePem());
        File.WriteAllText(ServerCertificate, server.ExportCertificatePem());
        File.WriteAllText(ServerKey, serverKey.ExportPkcs8PrivateKeyPem());
    }

    /// <summary>Certificate of the authority.</summary>
    public string Authority => Path.Combine(_folder, "authority.pem");

    /// <summary>Certificate of the server.</summary>
    public string ServerCertificate => Path.Combine(_folder, "server.pem");

    /// <summary>Key of the server.</summary>
    public string ServerKey => Path.Combine(_folder, "server.key");

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
