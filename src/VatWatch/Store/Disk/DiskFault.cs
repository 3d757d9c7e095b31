using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace VatWatch.Store.Disk;

/// <summary>Tells a disk that takes nothing, which may pass, from a folder or file that is wrong, which does not.</summary>
internal static class DiskFault
{
    /// <summary>Whether the disk is full, read-only or failing.</summary>
    public static bool Is(Exception caught) => caught switch
    {
        SqliteException { SqliteErrorCode: raw.SQLITE_FULL or raw.SQLITE_READONLY or raw.SQLITE_IOERR or raw.SQLITE_CANTOPEN } => true,
        IOException { HResult: InputOutput or FileTooBig or NoSpace or ReadOnly or Quota or NoSpaceOnWindows } => true,
        _ => false,
    };

    // errno of Linux (asm-generic/errno-base.h and errno.h), which .NET hands on as HResult.
    private const int InputOutput = 5;
    private const int FileTooBig = 27;
    private const int NoSpace = 28;
    private const int ReadOnly = 30;
    private const int Quota = 122;

    /// <summary>ERROR_DISK_FULL as an HRESULT, which .NET also gives for ENOSPC in some calls.</summary>
    private const int NoSpaceOnWindows = unchecked((int)0x80070070);
}
