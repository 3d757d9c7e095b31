namespace VatWatch.Store.Archive;

/// <summary>Looks through the archive of a store.</summary>
internal static class ArchiveCheck
{
    /// <summary>One sentence a fault; empty when every file that the database notes is there and sound.</summary>
    public static IReadOnlyList<string> Run(SqlSession sql, string folder) =>
        [.. ArchiveTable.Between(sql, null, long.MinValue, long.MaxValue).Select(one => Evaluate(one, ArchiveReader.FileOf(folder, one.Month))).OfType<string>()];

    private static string? Evaluate(ArchivedMonth archived, string path)
    {
        var name = archived.Month.FileName;
        try
        {
            using var file = ArchiveFile.Open(path, archived.Month);
            file.Verify();
            return file.Rows == archived.Rows ? null : $"archive/{name} holds {file.Rows} readings; wanted {archived.Rows}.";
        }
        catch (FileNotFoundException)
        {
            return $"archive/{name} is not there; wanted {archived.Rows} readings in it.";
        }
        catch (Exception caught) when (caught is InvalidDataException or IOException or UnauthorizedAccessException)
        {
            return $"archive/{name} is damaged: {caught.Message.TrimEnd('.')}.";
        }
    }
}
