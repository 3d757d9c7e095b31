using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace VatWatch.Probes.Serial.Ports;

/// <summary>The few calls of the C library that wait for a serial port without using the processor. Linux only.</summary>
/// <remarks>Values of the constants: Linux asm-generic headers (fcntl.h, poll.h, errno-base.h), the same on x86-64, ARM and ARM64.</remarks>
internal static class Libc
{
    public const int OpenReadWrite = 0x2;
    public const int OpenNoControllingTerminal = 0x100;
    public const int OpenNonBlocking = 0x800;
    public const int OpenCloseOnExec = 0x80000;
    public const short PollIn = 0x1;
    public const short PollOut = 0x4;
    public const short PollError = 0x8;
    public const short PollHangUp = 0x10;
    public const short PollInvalid = 0x20;
    public const int ErrorNoEntry = 2;
    public const int ErrorInterrupted = 4;
    public const int ErrorNoDeviceAddress = 6;
    public const int ErrorAgain = 11;
    public const int ErrorAccess = 13;
    public const int ErrorBusy = 16;
    public const int ErrorNoDevice = 19;

    /// <summary>One entry of <see cref="Wait"/>.</summary>
    [StructLayout(LayoutKind.Sequential)]
    public struct PollEntry
    {
        public int Descriptor;
        public short Wanted;
        public short Seen;
    }

    /// <summary>The text of the last failed call, for people.</summary>
    public static string LastErrorText() => Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError());

    /// <summary>open(2).</summary>
    public static SafeFileHandle Open(string path, int flags) => new(open(path, flags), ownsHandle: true);

    /// <summary>eventfd(2), not blocking.</summary>
    public static SafeFileHandle EventHandle() => new(eventfd(0, OpenCloseOnExec | OpenNonBlocking), ownsHandle: true);

    /// <summary>read(2): count, 0 at the end, or -1.</summary>
    public static int Read(SafeFileHandle handle, byte[] buffer) => (int)read(handle, buffer, (nuint)buffer.Length);

    /// <summary>write(2): count or -1.</summary>
    public static int Write(SafeFileHandle handle, ReadOnlySpan<byte> bytes) =>
        (int)write(handle, ref MemoryMarshal.GetReference(bytes), (nuint)bytes.Length);

    /// <summary>poll(2): how many entries are ready, or -1; waits without end for a negative <paramref name="milliseconds"/>.</summary>
    public static int Wait(PollEntry[] entries, int milliseconds) => poll(entries, (nuint)entries.Length, milliseconds);

#pragma warning disable SYSLIB1054, CA2101 // LibraryImport would need unsafe code in the whole project; every argument here is blittable or UTF-8.
    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int eventfd(uint start, int flags);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint read(SafeFileHandle handle, byte[] buffer, nuint count);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint write(SafeFileHandle handle, ref byte first, nuint count);

    [DllImport("libc", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int poll([In, Out] PollEntry[] entries, nuint count, int milliseconds);
#pragma warning restore SYSLIB1054, CA2101
}
