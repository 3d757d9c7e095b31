using VatWatch.Probes.OneWire;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Looks where on this machine probes could hang. It opens nothing: a port that is looked at too closely resets what is behind it.</summary>
internal static class FoundPlaces
{
    /// <summary>More than this is not listed.</summary>
    private const int Most = 50;

    /// <summary>Serial ports by their lasting names, then 1-wire thermometers, then I2C adapters.</summary>
    /// <param name="root">Folder that stands for <c>/</c>; tests have their own.</param>
    public static IReadOnlyList<ProbePlace> Look(string root) =>
    [
        .. Names(root, "dev/serial/by-id", "*").Select(name => $"/dev/serial/by-id/{name}")
            .Concat(Names(root, OneWireBusKind.UsualRoot[1..], "*-*"))
            .Concat(Names(root, "dev", "i2c-*").Select(name => $"/dev/{name}"))
            .Select(ProbePlace.Parse).OfType<ProbePlace>().Take(Most),
    ];

    private static List<string> Names(string root, string folder, string pattern)
    {
        try
        {
            return [.. new DirectoryInfo(Path.Combine(root, folder)).EnumerateFileSystemInfos(pattern).Select(entry => entry.Name).Order(StringComparer.Ordinal)];
        }
        catch (Exception none) when (none is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }
}
