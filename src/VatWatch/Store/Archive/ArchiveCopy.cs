namespace VatWatch.Store.Archive;

/// <summary>Copies the archive beside a backup. Files of an archive never change, so one that is there already and is the same is not copied again.</summary>
internal static class ArchiveCopy
{
    /// <summary>Copies every file that the database notes into the folder <c>archive</c> of <paramref name="target"/>.</summary>
    /// <returns>How many files are there now.</returns>
    /// <exception cref="IOException">A file cannot be copied, or another of its name is in the way; in a sentence.</exception>
    public static int Write(SqlSession sql, string folder, string target, bool replace)
    {
        var months = ArchiveTable.Between(sql, null, long.MinValue, long.MaxValue);
        foreach (var month in months.Select(one => one.Month))
        {
            Copy(ArchiveReader.FileOf(folder, month), ArchiveReader.FileOf(target, month), replace);
        }

        DirectorySync.Flush(ArchiveReader.FolderOf(target));
        return months.Count;
    }

    private static void Copy(string from, string to, bool replace)
    {
        if (Path.GetFullPath(from) == Path.GetFullPath(to) || (File.Exists(to) && IsSame(from, to)))
        {
            return;
        }

        if (File.Exists(to) && !replace)
        {
            throw new IOException($"'{to}' exists and is another file");
        }

        Directory.CreateDirectory(Path.GetDirectoryName(to)!);
        var part = $"{to}.part";
        using (var source = new FileStream(from, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete))
        using (var written = new FileStream(part, FileMode.Create, FileAccess.Write))
        {
            source.CopyTo(written);
            written.Flush(flushToDisk: true);
        }

        File.Move(part, to, overwrite: true);
    }

    private static bool IsSame(string left, string right)
    {
        using var one = File.OpenRead(left);
        using var other = File.OpenRead(right);
        return one.Length == other.Length && System.Security.Cryptography.SHA256.HashData(one).AsSpan().SequenceEqual(System.Security.Cryptography.SHA256.HashData(other));
    }
}
