using System.Globalization;
using System.Net.Sockets;
using System.Text;

namespace VatWatch.Daemon.Service;

/// <summary>
/// The datagram socket on which a service manager hears of its services: sd_notify(3), written down in "NOTIFY_SOCKET" of systemd's documentation.
/// Sending never waits and never throws: a manager that has gone is none of the watch's concern. Thread safe.
/// </summary>
/// <param name="path">Path of the socket; one that begins with @ is in Linux's abstract name space.</param>
/// <param name="watchdog">How often the manager wants to hear that all is well; null when it does not ask.</param>
internal sealed class ServiceSocket(string path, TimeSpan? watchdog)
{
    /// <summary>How often the manager wants to hear that all is well; null when it does not ask.</summary>
    public TimeSpan? Watchdog => watchdog;

    /// <summary>What the environment of this process names; null when no manager listens.</summary>
    public static ServiceSocket? FromEnvironment() =>
        From(Environment.GetEnvironmentVariable("NOTIFY_SOCKET"), Environment.GetEnvironmentVariable("WATCHDOG_USEC"), Environment.GetEnvironmentVariable("WATCHDOG_PID"), Environment.ProcessId);

    /// <summary>What these variables name: the watchdog counts only when it is meant for process <paramref name="self"/>.</summary>
    public static ServiceSocket? From(string? socket, string? microseconds, string? watched, int self)
    {
        if (socket is not { Length: > 1 } || socket[0] is not ('/' or '@'))
        {
            return null;
        }

        var isMeant = watched is null || watched == self.ToString();
        var isNumber = long.TryParse(microseconds, NumberStyles.None, CultureInfo.InvariantCulture, out var period) && period is > 0 and < long.MaxValue / 10;
        return new(socket, isMeant && isNumber ? TimeSpan.FromMicroseconds(period) : null);
    }

    /// <summary>Sends assignments such as <c>READY=1</c>, one a line; false when nobody took them.</summary>
    public bool Tell(string assignments)
    {
        try
        {
            using var socket = new Socket(AddressFamily.Unix, SocketType.Dgram, ProtocolType.Unspecified) { Blocking = false };
            socket.SendTo(Encoding.UTF8.GetBytes(assignments), new UnixDomainSocketEndPoint(path[0] == '@' ? $"\0{path[1..]}" : path));
            return true;
        }
        catch (Exception refused) when (refused is SocketException or ArgumentException)
        {
            return false;
        }
    }
}
