using System.Text;

namespace VatWatch.Vats.Configuration;

/// <summary>A file whose first line is a secret. What is in it never appears in a sentence.</summary>
public static class SecretFile
{
    /// <summary>A password is at most 65,535 bytes in MQTT, a token some hundred; a file beyond this is some other file.</summary>
    private const int MostBytes = 4096;

    /// <summary>
    /// The path of a file that holds a secret, or null when the key is absent. A file that is not there or holds nothing is a fault at once,
    /// so that it is found when the configuration is checked and not in the night.
    /// </summary>
    public static string? Read(ConfigNode node, string key, string wanted)
    {
        if (!node.Has(key) || node.Text(key, wanted) is not { Length: > 0 } name)
        {
            return null;
        }

        var file = node.FilePath(name);
        if (TryRead(file, out var fault) is null)
        {
            node.Faults.Add(node.PathOf(key), $"{ConfigNode.Quote(name)}, and {fault}", wanted);
        }

        return file;
    }

    /// <summary>Reads the first line; null with a clause in <paramref name="fault"/> when there is none. <paramref name="what"/> names the secret in it.</summary>
    public static string? TryRead(string path, out string fault, string what = "password")
    {
        fault = "";
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var bytes = new byte[MostBytes + 1];
            var length = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
            if (length > MostBytes)
            {
                fault = $"file {path} is larger than {MostBytes} bytes; wanted a file whose first line is the {what}";
                return null;
            }

            using var text = new StreamReader(new MemoryStream(bytes, 0, length), Encoding.UTF8);
            if (text.ReadLine() is { Length: > 0 } secret)
            {
                return secret;
            }

            fault = $"the first line of {path} is empty; wanted the {what}";
            return null;
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            fault = wrong switch
            {
                FileNotFoundException or DirectoryNotFoundException => $"there is no file {path}",
                UnauthorizedAccessException => $"file {path} may not be read by this user",
                _ => $"file {path} cannot be read",
            };
            return null;
        }
    }
}
