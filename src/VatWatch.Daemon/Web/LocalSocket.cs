using System.Net.Sockets;
using System.Text;

namespace VatWatch.Daemon.Web;

/// <summary>
/// The Unix domain socket in the store's folder on which the daemon serves the same pages and interface as at its address, for verbs and scripts of this
/// computer. Nobody is asked for a password there: who may write to the socket is settled by the rights of the folder and of the socket.
/// </summary>
internal static class LocalSocket
{
    /// <summary>Its name in the folder.</summary>
    public const string Name = "vatwatch.sock";

    /// <summary>Longest path that a socket address holds, bytes of UTF-8: <c>sun_path</c> of Linux less its closing zero (unix(7)).</summary>
    public const int LongestPath = 107;

    private const UnixFileMode Mode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead | UnixFileMode.GroupWrite;

    public static string PathIn(string folder) => Path.Combine(Path.GetFullPath(folder), Name);

    /// <summary>Why a path cannot be the address of a socket, as a clause; null when it can.</summary>
    public static string? FaultOf(string path) => Encoding.UTF8.GetByteCount(path) is var length && length > LongestPath
        ? $"the path '{path}' has {length} bytes and a socket's address holds {LongestPath}; wanted a data folder with a shorter path"
        : null;

    /// <summary>Whether somebody listens on the folder's socket: a running daemon, though its lock file be deleted. Never waits.</summary>
    public static bool IsListenedOn(string folder)
    {
        if (FaultOf(PathIn(folder)) is not null || !File.Exists(PathIn(folder)))
        {
            return false;
        }

        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified) { Blocking = false };
        try
        {
            socket.Connect(new UnixDomainSocketEndPoint(PathIn(folder)));
            return true;
        }
        catch (SocketException refused)
        {
            // A listener that is too busy to take anybody is one too.
            return refused.SocketErrorCode is SocketError.WouldBlock or SocketError.TryAgain;
        }
    }

    /// <summary>
    /// Takes the address of the folder's socket and gives it the mode 0660; nobody can connect before it is listened on. A socket that a killed daemon left
    /// behind is removed, so the caller must hold the folder's lock.
    /// </summary>
    /// <param name="folder">The store's folder.</param>
    /// <param name="fault">Why there is none, as a clause.</param>
    /// <returns>The socket; its file goes with it. Null where the folder takes none.</returns>
    public static Socket? TryBind(string folder, out string fault)
    {
        var path = PathIn(folder);
        if (FaultOf(path) is { } tooLong)
        {
            fault = tooLong;
            return null;
        }

        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            File.Delete(path);
            socket.Bind(new UnixDomainSocketEndPoint(path));
            if (!OperatingSystem.IsWindows())
            {
                File.SetUnixFileMode(path, Mode);
            }

            fault = "";
            return socket;
        }
        catch (Exception refused) when (refused is SocketException or IOException or UnauthorizedAccessException)
        {
            socket.Dispose();
            fault = $"'{path}' cannot be made: {refused.Message.TrimEnd('.')}";
            return null;
        }
    }
}
