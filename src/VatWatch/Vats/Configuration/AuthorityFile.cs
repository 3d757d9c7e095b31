using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace VatWatch.Vats.Configuration;

/// <summary>A PEM file of the authorities that a server's certificate must lead to.</summary>
public static class AuthorityFile
{
    private const string Wanted = "the name of a PEM file of certificates";

    /// <summary>The path at <c>caFile</c>, or null when the key is absent. A file without certificates is a fault at once, so that it is found when the configuration is checked and not in the night.</summary>
    public static string? Read(ConfigNode node)
    {
        var file = node.OptionalFile("caFile", Wanted);
        if (file is not null && TryRead(file, out var fault) is null)
        {
            node.Faults.Add(node.PathOf("caFile"), $"{node.Shown("caFile")}, and {fault}", Wanted);
        }

        return file;
    }

    /// <summary>The certificates; null with a clause in <paramref name="fault"/> when there are none.</summary>
    public static X509Certificate2Collection? TryRead(string file, out string fault)
    {
        if (SecretFile.TryReadAll(file, out fault, isSecret: false) is not { } content)
        {
            return null;
        }

        var authorities = new X509Certificate2Collection();
        try
        {
            authorities.ImportFromPem(content);
        }
        catch (CryptographicException)
        {
            authorities.Clear();
        }

        fault = authorities.Count > 0 ? "" : $"file {file} holds no certificate; wanted certificates in PEM";
        return authorities.Count > 0 ? authorities : null;
    }
}
