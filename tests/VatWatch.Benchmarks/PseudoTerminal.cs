using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace VatWatch.Benchmarks;

/// <summary>A pseudo-terminal whose near end this program writes, so that the moment a line leaves is known.</summary>
internal sealed partial class PseudoTerminal : IDisposable
{
    private const int OpenReadWriteNoControl = 0x102;
    private readonly FileStream _near;

    public PseudoTerminal()
    {
        var descriptor = Check(posix_openpt(OpenReadWriteNoControl));
        Check(grantpt(descriptor));
        Check(unlockpt(descriptor));
        var name = new byte[128];
        Check(ptsname_r(descriptor, name, (nuint)name.Length));
        FarEnd = Encoding.ASCII.GetString(name, 0, Array.IndexOf(name, (byte)0));
        _near = new FileStream(new SafeFileHandle(descriptor, ownsHandle: true), FileAccess.ReadWrite, bufferSize: 0);
    }

    /// <summary>The path a serial port is opened by.</summary>
    public string FarEnd { get; }

    public void WriteLine(string line) => _near.Write(Encoding.ASCII.GetBytes(line + "\n"));

    public void Dispose() => _near.Dispose();

    private static int Check(int result) => result >= 0 ? result : throw new IOException($"no pseudo-terminal: errno {Marshal.GetLastPInvokeError()}");

    [LibraryImport("libc", SetLastError = true)]
    private static partial int posix_openpt(int flags);

    [LibraryImport("libc", SetLastError = true)]
    private static partial int grantpt(int descriptor);

    [LibraryImport("libc", SetLastError = true)]
    private static partial int unlockpt(int descriptor);

    [LibraryImport("libc", SetLastError = true)]
    private static partial int ptsname_r(int descriptor, byte[] buffer, nuint length);
}
