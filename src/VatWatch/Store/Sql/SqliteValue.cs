using System.Runtime.InteropServices;
using SQLitePCL;

namespace VatWatch.Store.Sql;

/// <summary>
/// One field of the row that a statement stands on, valid until its next step. The package asks for the kind and the value of a field under a lock and with a counted handle each;
/// asked this way both cost a third, and a year's chart has a million fields. Nobody else may use the connection meanwhile (sqlite.org/c3ref/column_blob.html, unprotected values).
/// </summary>
internal readonly struct SqliteValue(sqlite3_stmt statement, int column)
{
    private readonly nint _value = sqlite3_column_value(statement.DangerousGetHandle(), column);

    /// <summary><c>SQLITE_INTEGER</c> and so on.</summary>
    public int Kind => sqlite3_value_type(_value);

    /// <summary>A field of kind <c>SQLITE_INTEGER</c>.</summary>
    public long Whole => sqlite3_value_int64(_value);

    /// <summary>A field of kind <c>SQLITE_INTEGER</c> or <c>SQLITE_FLOAT</c>.</summary>
    public double Real => sqlite3_value_double(_value);

#pragma warning disable SYSLIB1054 // LibraryImport would need unsafe code in the whole project; every argument here is blittable.
    [DllImport("e_sqlite3")]
    [SuppressGCTransition]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern nint sqlite3_column_value(nint statement, int column);

    [DllImport("e_sqlite3")]
    [SuppressGCTransition]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern int sqlite3_value_type(nint value);

    [DllImport("e_sqlite3")]
    [SuppressGCTransition]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern long sqlite3_value_int64(nint value);

    [DllImport("e_sqlite3")]
    [SuppressGCTransition]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories | DllImportSearchPath.AssemblyDirectory)]
    private static extern double sqlite3_value_double(nint value);
#pragma warning restore SYSLIB1054
}
