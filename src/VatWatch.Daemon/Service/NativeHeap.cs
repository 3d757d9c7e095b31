using System.Runtime.InteropServices;

namespace VatWatch.Daemon.Service;

/// <summary>The memory of the C library, from which pictures, charts and the database take theirs.</summary>
internal static class NativeHeap
{
    // malloc.h of the GNU C library.
    private const int MmapThreshold = -3;

    /// <summary>
    /// Lets large blocks go back to the system as soon as they are free. By itself the GNU C library keeps them for later use once a few have come and gone, in a heap for each
    /// thread: 130 MB after a dozen photographs. That there is one such heap for all threads can only be said before the program starts: the service and the image set MALLOC_ARENA_MAX.
    /// Other C libraries have no such heaps and no such call.
    /// </summary>
    public static void GiveBackLargeBlocks()
    {
        if (!OperatingSystem.IsLinux())
        {
            return;
        }

        try
        {
            _ = mallopt(MmapThreshold, 128 * 1024);
        }
        catch (EntryPointNotFoundException)
        {
            // Not the GNU C library.
        }
    }

#pragma warning disable SYSLIB1054 // LibraryImport would need unsafe code in the whole project; both arguments are blittable.
    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int mallopt(int parameter, int value);
#pragma warning restore SYSLIB1054
}
