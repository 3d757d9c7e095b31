using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using VatWatch.Vats.Configuration;

namespace VatWatch.Notifications;

/// <summary>Whom a server's certificate must lead to: the authorities of a PEM file and no others, or those that the machine trusts.</summary>
internal sealed class CertificateTrust
{
    /// <summary>Extended key usage of a server, RFC 5280 §4.2.1.12.</summary>
    private const string ServerAuthentication = "1.3.6.1.5.5.7.3.1";

    private readonly X509Certificate2Collection? _authorities;

    private CertificateTrust(X509Certificate2Collection? authorities) => _authorities = authorities;

    /// <summary>Reads a file (null for the machine's own authorities); null with a clause in <paramref name="fault"/> when it is of no use.</summary>
    public static CertificateTrust? TryRead(string? file, out string fault)
    {
        if (file is null)
        {
            fault = "";
            return new(null);
        }

        return AuthorityFile.TryRead(file, out fault) is { } authorities ? new(authorities) : null;
    }

    /// <summary>
    /// The certificate must be for the name we asked for and lead to an authority. Revocation is not asked for: a studio's own authority has no
    /// list, and no network may be there to ask.
    /// </summary>
    public bool Accepts(X509Certificate? seen, X509Chain? sent, SslPolicyErrors errors)
    {
        if (_authorities is null || errors.HasFlag(SslPolicyErrors.RemoteCertificateNameMismatch))
        {
            return errors == SslPolicyErrors.None;
        }

        if (seen is not X509Certificate2 certificate)
        {
            return false;
        }

        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(_authorities);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid(ServerAuthentication));
        if (sent is not null)
        {
            chain.ChainPolicy.ExtraStore.AddRange(sent.ChainElements.Select(element => element.Certificate).ToArray());
        }

        return chain.Build(certificate);
    }
}
