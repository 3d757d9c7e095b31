using System.Globalization;

namespace VatWatch.Store.Disk;

/// <summary>
/// Holds a folder for one process: an advisory lock of the operating system on <c>vatwatch.lock</c>, which ends with the process however
/// that ends. The holder's process id stands beside it in <c>vatwatch.pid</c>, because a locked file cannot be read through .NET. The lock file itself stays when
/// the process ends, and has a line in it once a store was begun in the folder: so a database that is gone is not taken for one that never was.
/// </summary>
internal sealed class FolderLock : IDisposable
{
    private readonly FileStream _held;
    private readonly string _pidFile;

    private FolderLock(FileStream held, string pidFile)
    {
        _held = held;
        _pidFile = pidFile;
    }

    /// <summary>Whether a store was begun in the folder, now or before.</summary>
    public bool HasHadStore => _held.Length > 0;

    /// <summary>Whether a store was ever begun in <paramref name="folder"/>; looks and takes nothing.</summary>
    public static bool HadStore(string folder) => new FileInfo(Path.Combine(folder, LockFile)) is { Exists: true, Length: > 0 };

    /// <summary>Notes that a store was begun in the folder.</summary>
    public void NoteStore()
    {
        if (HasHadStore)
        {
            return;
        }

        try
        {
            _held.Write("A store was begun in this folder.\n"u8);
            _held.Flush(flushToDisk: true);
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException or ArgumentOutOfRangeException)
        {
            // It is noted at a later start; a disk that is full now tells so itself. ArgumentOutOfRangeException as below.
        }
    }

    /// <summary>Takes the lock, or throws <see cref="StoreInUseException"/> at once.</summary>
    public static FolderLock Take(string folder)
    {
        var pidFile = Path.Combine(folder, "vatwatch.pid");
        FileStream held;
        try
        {
            held = new FileStream(Path.Combine(folder, LockFile), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException caught) when (IsRefusal(caught))
        {
            throw new StoreInUseException(
                $"Store in '{folder}': tried to open it; {Holder(pidFile)} is using it; wanted the folder to ourselves; stop that one or choose another folder.");
        }

        try
        {
            File.WriteAllText(pidFile, Environment.ProcessId.ToString());
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException or ArgumentOutOfRangeException)
        {
            // A full disk takes no number, and the number only decorates a sentence. A limit of file sizes (EFBIG) comes as ArgumentOutOfRangeException.
        }

        return new FolderLock(held, pidFile);
    }

    /// <summary>Whether somebody has the lock; looks for an instant and changes nothing.</summary>
    public static bool IsHeld(string folder)
    {
        try
        {
            using var free = new FileStream(Path.Combine(folder, LockFile), FileMode.Open, FileAccess.Read, FileShare.Read);
            return false;
        }
        catch (Exception caught) when (caught is FileNotFoundException or DirectoryNotFoundException)
        {
            return false;
        }
        catch (IOException caught) when (IsRefusal(caught))
        {
            return true;
        }
    }

    public void Dispose()
    {
        if (!_held.CanWrite)
        {
            return;
        }

        try
        {
            File.Delete(_pidFile);
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            // The pid only decorates a sentence; the lock itself goes with the handle.
        }

        _held.Dispose();
    }

    private static string Holder(string pidFile)
    {
        try
        {
            return int.TryParse(File.ReadAllText(pidFile), CultureInfo.InvariantCulture, out var pid) ? $"process {pid}" : "another process";
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            return "another process";
        }
    }

    private static bool IsRefusal(IOException caught) => caught.HResult is WouldBlock or WouldBlockOnMac or SharingViolation;

    private const string LockFile = "vatwatch.lock";

    /// <summary>EWOULDBLOCK of flock(2) on Linux; .NET hands the errno on as HResult.</summary>
    private const int WouldBlock = 11;

    /// <summary>EWOULDBLOCK on macOS.</summary>
    private const int WouldBlockOnMac = 35;

    /// <summary>ERROR_SHARING_VIOLATION as an HRESULT, on Windows.</summary>
    private const int SharingViolation = unchecked((int)0x80070020);
}
