using System.Text;

namespace VatWatch.Vats.Configuration;

/// <summary>A file whose first line is a secret. What is in it never appears in a sentence.</summary>
public static class SecretFile
{
    /// <summary>A password is at most 65,535 bytes in MQTT, a token some hundred; a file beyond this is some other file.</summary>
    private const int MostBytes = 64 * 1024;

    /// <summary>The authorities that a system trusts are together some 220 KB.</summary>
    private const int MostCertificateBytes = 1024 * 1024;

    /// <summary>Where containers get their secrets.</summary>
    private const string Given = "/run/secrets/";

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
        if (TryReadAll(path, out fault) is not { } content)
        {
            return null;
        }

        var secret = content.Split('\n', 2)[0].TrimEnd('\r');
        fault = secret.Length switch
        {
            0 => $"the first line of {ConfigNode.OnOneLine(path)} is empty; wanted the {what}",
            1 => $"the first line of {ConfigNode.OnOneLine(path)} is one character, which anybody guesses; wanted the {what}",
            _ => "",
        };
        return fault.Length == 0 ? secret : null;
    }

    /// <summary>
    /// All of a file that others than its owner and group may not read, at most 64 KiB; null with a clause in <paramref name="fault"/> when it is something else. Never waits: a pipe
    /// or a device is not opened.
    /// </summary>
    /// <param name="path">The file.</param>
    /// <param name="fault">What is wrong with it.</param>
    /// <param name="isSecret">False for certificates, which everybody may read, at most 1 MiB of them; all else holds for them too.</param>
    public static string? TryReadAll(string path, out string fault, bool isSecret = true)
    {
        fault = "";
        var shown = ConfigNode.OnOneLine(path);
        try
        {
            var target = File.ResolveLinkTarget(path, returnFinalTarget: true)?.FullName ?? path;
            if (Wrong(path, shown, target, isSecret) is { } wrong)
            {
                fault = wrong;
                return null;
            }

            using var file = new FileStream(target, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
            var bytes = new byte[file.Length];
            return Encoding.UTF8.GetString(bytes, 0, file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false)).TrimStart('\uFEFF');
        }
        catch (Exception wrong) when (wrong is IOException or UnauthorizedAccessException or NotSupportedException or ArgumentException)
        {
            fault = wrong switch
            {
                FileNotFoundException or DirectoryNotFoundException => $"there is no file {shown}",
                UnauthorizedAccessException => $"file {shown} may not be read by this user",
                _ => $"file {shown} cannot be read",
            };
            return null;
        }
    }

    private static string? Wrong(string path, string shown, string target, bool isSecret)
    {
        var (length, most) = (new FileInfo(target).Length, isSecret ? MostBytes : MostCertificateBytes);
        if (length == 0)
        {
            return $"file {shown} is empty, or a pipe or a device; wanted a file on a disk";
        }

        if (length > most)
        {
            return $"file {shown} is larger than {most / 1024} KiB; wanted a file that holds only {(isSecret ? "the secret" : "certificates")}";
        }

        // A container's secrets stand in a folder of its own, with the rights that they have outside.
        return isSecret && !OperatingSystem.IsWindows() && File.GetUnixFileMode(target) is var mode && (mode & UnixFileMode.OtherRead) != 0
            && !path.StartsWith(Given, StringComparison.Ordinal) && OthersGetInto(Path.GetDirectoryName(Path.GetFullPath(target))!)
            ? $"file {shown} may be read by every user of this computer (mode {Convert.ToString((int)mode, 8).PadLeft(4, '0')}); wanted mode 0600 or 0640, as by 'chmod o-rwx {shown}'"
            : null;
    }

    private static bool OthersGetInto(string folder) => !OperatingSystem.IsWindows() && (File.GetUnixFileMode(folder) & UnixFileMode.OtherExecute) != 0;
}
