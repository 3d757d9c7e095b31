using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Web;

/// <summary>Reads the certificates that the configuration's <c>web</c> object names; they are read once, at the start.</summary>
/// <param name="folder">Folder that file names without a full path start from.</param>
internal sealed class WebCertificateFiles(ConfigNode node, string folder)
{
    private const string WantedCertificate = "a PEM file with the certificate (and its chain)";
    private const string WantedKey = "a PEM file with the certificate's private key, without a passphrase";
    private static readonly string[] ServerKeys = ["certificateFile", "keyFile"];

    /// <summary>The server's certificate with its key, and what stands between it and its authority.</summary>
    public (X509Certificate2? Leaf, X509Certificate2Collection Chain) Server(bool isHttps)
    {
        if (!isHttps)
        {
            foreach (var key in ServerKeys.Where(node.Has))
            {
                node.Faults.Add(node.PathOf(key), "given", "no certificate for http, or \"listen\" with https");
            }

            return (null, []);
        }

        var certificateFile = node.Text("certificateFile", WantedCertificate);
        var keyFile = node.Text("keyFile", WantedKey);
        if (certificateFile.Length == 0 || keyFile.Length == 0)
        {
            return (null, []);
        }

        if (Content("certificateFile", certificateFile, WantedCertificate, isSecret: false) is not { } certificate || Content("keyFile", keyFile, WantedKey, isSecret: true) is not { } secret)
        {
            return (null, []);
        }

        try
        {
            var chain = new X509Certificate2Collection();
            chain.ImportFromPem(certificate);
            chain.RemoveAt(0);
            return (X509Certificate2.CreateFromPem(certificate, secret), chain);
        }
        catch (Exception problem) when (problem is CryptographicException or ArgumentException)
        {
            node.Faults.Add(node.PathOf("certificateFile"),
                $"{ConfigNode.Quote(certificateFile)}, which cannot be loaded with keyFile {ConfigNode.Quote(keyFile)}", $"{WantedCertificate}, and {WantedKey}");
            return (null, []);
        }
    }

    private string? Content(string key, string name, string wanted, bool isSecret)
    {
        var content = SecretFile.TryReadAll(Path.Combine(folder, name), out var fault, isSecret);
        if (content is null)
        {
            node.Faults.Add(node.PathOf(key), $"{ConfigNode.Quote(name)}, and {fault}", wanted);
        }

        return content;
    }
}
