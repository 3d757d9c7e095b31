namespace VatWatch.Probes.Serial.Ports;

/// <summary>The names of serial ports that stay with an instrument, beside those that go by the order in which plugs are found.</summary>
internal sealed class LastingName(string folder = LastingName.Folder)
{
    /// <summary>Where the system keeps them.</summary>
    public const string Folder = "/dev/serial/by-id";

    /// <summary>The lasting name of what <paramref name="path"/> is now; null when there is none, or it is one itself.</summary>
    public string? Of(string path)
    {
        if (path.StartsWith(folder + "/", StringComparison.Ordinal) || !Directory.Exists(folder) || SerialDevice.Target(path) is not { } target)
        {
            return null;
        }

        try
        {
            return Directory.EnumerateFileSystemEntries(folder).Order(StringComparer.Ordinal).FirstOrDefault(name => SerialDevice.Target(name) == target);
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>What to write in place of a name that can change, in a sentence; null when there is nothing better.</summary>
    public string? Advice(string path) => Of(path) is { } lasting
        ? $"{path} is a name that goes by the order in which plugs are found; write \"{lasting}\", which stays with the instrument"
        : null;

    /// <summary>Where the instrument that was at <paramref name="path"/> under the name <paramref name="lasting"/> has gone, in words; null while it is there, or nowhere.</summary>
    public static string? Moved(string path, string? lasting) =>
        lasting is not null && SerialDevice.Target(lasting) is { } now && now != SerialDevice.Target(path)
            ? $"the instrument that was {path} is {now} now; write \"{lasting}\" as the port, which stays with it"
            : null;
}
