using System.Runtime.InteropServices;
using System.Text;

namespace VatWatch.Testing;

/// <summary>Notes whatever is opened, made or moved in some folders, by whichever process (inotify(7)).</summary>
internal sealed class OpenedFiles : IDisposable
{
    private const int NonBlocking = 0x800;
    private const uint Opened = 0x20;
    private const uint MovedTo = 0x80;
    private const uint Created = 0x100;
    private const int HeadBytes = 16;
    private readonly int _handle;
    private readonly List<string> _names = [];

    /// <summary>Begins to watch.</summary>
    public OpenedFiles(params string[] folders)
    {
        _handle = inotify_init1(NonBlocking);
        foreach (var folder in folders)
        {
            if (_handle < 0 || inotify_add_watch(_handle, Encoding.UTF8.GetBytes(folder + '\0'), Opened | MovedTo | Created) < 0)
            {
                throw new InvalidOperationException($"cannot watch {folder}: error {Marshal.GetLastPInvokeError()}");
            }
        }
    }

    /// <summary>Names of what was touched up to now; the empty name is a folder itself.</summary>
    public IReadOnlyList<string> Names
    {
        get
        {
            var bytes = new byte[64 * 1024];
            for (nint length; (length = read(_handle, bytes, bytes.Length)) > 0;)
            {
                for (var at = 0; at < length;)
                {
                    var room = BitConverter.ToInt32(bytes, at + 12);
                    _names.Add(Encoding.UTF8.GetString(bytes, at + HeadBytes, room).TrimEnd('\0'));
                    at += HeadBytes + room;
                }
            }

            return _names;
        }
    }

    public void Dispose() => _ = close(_handle);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int inotify_init1(int flags);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int inotify_add_watch(int handle, byte[] path, uint mask);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint read(int handle, byte[] buffer, nint count);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int close(int handle);
}
