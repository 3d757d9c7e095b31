namespace VatWatch.Charts.Reports;

/// <summary>Writes files that are there as a whole or not at all.</summary>
internal static class WholeFile
{
    /// <summary>Writes a file. It appears under its name only when it is whole; one of that name is replaced.</summary>
    public static void Write(string path, Action<Stream> write)
    {
        var part = path + ".part";
        try
        {
            using (var stream = new FileStream(part, FileMode.Create, FileAccess.Write, FileShare.None))
                write(stream);
            File.Move(part, path, overwrite: true);
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }
}
