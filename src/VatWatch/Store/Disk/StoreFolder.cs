namespace VatWatch.Store.Disk;

/// <summary>Looks at a data folder before it is used.</summary>
public static class StoreFolder
{
    /// <summary>NAME_MAX and PATH_MAX of Linux (limits.h), less what the names in the folder take.</summary>
    private const int LongestName = 255;
    private const int LongestPath = 4000;

    private static readonly string[] Unkept = ["/proc", "/sys"];

    /// <summary>Why a store cannot be opened in <paramref name="folder"/>, in a sentence; null when nothing is in the way. Changes nothing.</summary>
    public static string? Fault(string folder) => Impossible(folder) ?? Former(folder);

    /// <summary>What is in the way of a folder there.</summary>
    private static string? Impossible(string folder)
    {
        var path = Path.GetFullPath(folder);
        if (Unkept.FirstOrDefault(root => path == root || path.StartsWith(root + "/", StringComparison.Ordinal)) is { } system)
        {
            return $"Store in '{folder}': {system} is the system's own and nothing can be kept there; wanted a folder on a disk";
        }

        if (path.Length > LongestPath || path.Split('/').Any(part => part.Length > LongestName))
        {
            return $"Store in '{folder[..40]}...': the name is longer than a disk takes; wanted at most {LongestName} characters for each folder";
        }

        for (var place = path; place is not null; place = Path.GetDirectoryName(place))
        {
            if (File.Exists(place))
            {
                return $"Store in '{folder}': {(place == path ? "it" : place)} is no folder; wanted a folder, which is made when it is not there";
            }
        }

        return null;
    }

    private static string? Former(string folder) => FormerArchive(folder) is { } archive
        ? $"Store in '{folder}': months of its readings are in '{archive}', which this version does not read; wanted all readings in vatwatch.db. "
            + "To keep them, let the version that moved them there write all readings to one file (vatwatch report --from 2020-01-01 --to 2100-01-01 --out readings.parquet), "
            + "or keep the folder as it is, since any program that reads Parquet can open its files; then move it out of the data folder and start again"
        : null;

    /// <summary>The folder into which versions up to schema 9 moved months of readings; null when there is none, or it holds none.</summary>
    private static string? FormerArchive(string folder)
    {
        var archive = Path.Combine(folder, "archive");
        try
        {
            return Directory.Exists(archive) && Directory.EnumerateFiles(archive, "*.parquet").Any() ? archive : null;
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
