using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace VatWatch.Daemon.Web.Security;

/// <summary>Checks the certificate that a browser or program shows.</summary>
internal static class ClientCertificates
{
    /// <summary>Extended key usage "TLS client authentication", RFC 5280 §4.2.1.12.</summary>
    private static readonly Oid ForClients = new("1.3.6.1.5.5.7.3.2");

    /// <summary>
    /// Whether one of <paramref name="authorities"/>, and no authority of the system, has signed it, it is in date and may be used by a client. Lists of
    /// withdrawn certificates are not fetched: a studio's own authority has none, and a fetch would wait for a network.
    /// </summary>
    public static bool IsFrom(X509Certificate2Collection authorities, X509Certificate2 client)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(authorities);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.DisableCertificateDownloads = true;
        chain.ChainPolicy.ApplicationPolicy.Add(ForClients);
        return chain.Build(client);
    }
}
