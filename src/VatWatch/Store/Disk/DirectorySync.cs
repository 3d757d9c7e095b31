using System.Runtime.InteropServices;

namespace VatWatch.Store.Disk;

/// <summary>Brings a folder's list of names to the disk, so that a file that was renamed into it is there after a power cut (fsync(2)).</summary>
internal static class DirectorySync
{
    /// <summary>Flushes; where the system knows no such thing, does nothing.</summary>
    public static void Flush(string folder)
    {
        if (!OperatingSystem.IsLinux() || open(folder, ReadOnlyDirectory) is var descriptor && descriptor < 0)
        {
            return;
        }

        _ = fsync(descriptor);
        _ = close(descriptor);
    }

    /// <summary>O_CLOEXEC, for reading (Linux asm-generic/fcntl.h).</summary>
    private const int ReadOnlyDirectory = 0x80000;

#pragma warning disable SYSLIB1054, CA2101 // LibraryImport would need unsafe code in the whole project; every argument here is blittable or UTF-8.
    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int fsync(int descriptor);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int close(int descriptor);
#pragma warning restore SYSLIB1054, CA2101
}
