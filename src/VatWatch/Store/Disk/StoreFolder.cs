namespace VatWatch.Store.Disk;

/// <summary>Looks at a data folder before it is used.</summary>
public static class StoreFolder
{
    /// <summary>Why a store cannot be opened in <paramref name="folder"/>, in a sentence; null when nothing is in the way. Changes nothing.</summary>
    public static string? Fault(string folder) => FormerArchive(folder) is { } archive
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
