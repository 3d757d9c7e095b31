namespace VatWatch.Store.Disk;

/// <summary>Keeps what is stored from other users of the computer, whatever the mask of the process is: only the owner and the group may read it.</summary>
internal static class StorePrivacy
{
    private const UnixFileMode Folder = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute | UnixFileMode.GroupRead | UnixFileMode.GroupExecute;
    private const UnixFileMode Database = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.GroupWrite;
    private const UnixFileMode Others = UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;

    /// <summary>Makes the data folder unless it is there; one that somebody made keeps its mode.</summary>
    public static void MakeFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, Folder);
        }
    }

    /// <summary>Makes an empty file that others may not read, or takes their rights to the one that is there. SQLite gives its log the same mode.</summary>
    public static void CloseToOthers(string file)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        try
        {
            using var made = new FileStream(file, new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, UnixCreateMode = Database });
        }
        catch (IOException) when (File.Exists(file))
        {
            Close(file);
        }
    }

    private static void Close(string file)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        try
        {
            if (File.GetUnixFileMode(file) is var mode && (mode & Others) != 0)
            {
                File.SetUnixFileMode(file, mode & ~Others);
            }
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            // Another owner's file, or a disk that takes nothing: what it holds can be used all the same.
        }
    }
}
