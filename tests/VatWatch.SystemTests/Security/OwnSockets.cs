using System.Buffers.Binary;
using System.Globalization;
using System.Net;

namespace VatWatch.SystemTests.Security;

/// <summary>The sockets on which a process waits for others, from the kernel's own lists and the process's open files (proc(5)).</summary>
internal static class OwnSockets
{
    private const string TcpListens = "0A";
    private const string UdpTakesFromAnybody = "07";
    private const string UnixListens = "00010000";

    /// <summary>For example "tcp 127.0.0.1:8080" or "unix /tmp/name", in order.</summary>
    public static IReadOnlyList<string> Of(int process)
    {
        var mine = Directory.EnumerateFiles($"/proc/{process}/fd").Select(file => new FileInfo(file).LinkTarget ?? "")
            .Where(link => link.StartsWith("socket:[", StringComparison.Ordinal)).Select(link => link[8..^1]).ToHashSet();
        return
        [
            .. Internet(process, "tcp", TcpListens, mine), .. Internet(process, "tcp6", TcpListens, mine),
            .. Internet(process, "udp", UdpTakesFromAnybody, mine), .. Internet(process, "udp6", UdpTakesFromAnybody, mine),
            .. Rows(process, "unix").Where(row => row[3] == UnixListens && mine.Contains(row[6])).Select(row => $"unix {(row.Length > 7 ? row[7] : "")}").Order(StringComparer.Ordinal),
        ];
    }

    private static IEnumerable<string> Internet(int process, string list, string state, HashSet<string> mine) => Rows(process, list)
        .Where(row => row[3] == state && mine.Contains(row[9])).Select(row => $"{list[..3]} {Address(row[1])}").Order(StringComparer.Ordinal);

    private static IEnumerable<string[]> Rows(int process, string list) =>
        File.ReadLines($"/proc/{process}/net/{list}").Skip(1).Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Words of 32 bits in the machine's own order, then the port, all hexadecimal.</summary>
    private static IPEndPoint Address(string text)
    {
        var bytes = Convert.FromHexString(text[..text.IndexOf(':', StringComparison.Ordinal)]);
        for (var at = 0; at < bytes.Length && BitConverter.IsLittleEndian; at += 4)
        {
            BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(at), BinaryPrimitives.ReadUInt32LittleEndian(bytes.AsSpan(at)));
        }

        return new(new IPAddress(bytes), int.Parse(text[(text.IndexOf(':', StringComparison.Ordinal) + 1)..], NumberStyles.HexNumber, CultureInfo.InvariantCulture));
    }
}
