using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// What a program wrote, flushed, renamed and told, in the order of its system calls, as <c>strace</c> recorded it. A write counts from the
/// moment its call began, a flush from the moment it returned.
/// </summary>
internal sealed partial class DiskTrace
{
    private const string Calls =
        "openat,pwrite64,write,ftruncate,fsync,fdatasync,rename,renameat,renameat2,link,linkat,unlink,unlinkat,mkdir,mkdirat,sendto,sendmsg,pwritev,copy_file_range,sendfile,fallocate";

    private readonly List<DiskStep?> _steps = [];
    private readonly Dictionary<string, (string Text, double Time, int Place)> _unfinished = [];

    private DiskTrace()
    {
    }

    /// <summary>The steps below the folder that was asked for, and everything said.</summary>
    public IReadOnlyList<DiskStep> Steps { get; private set; } = [];

    /// <summary>Put before a program and its arguments, records it into <paramref name="file"/>.</summary>
    public static string[] Recorder(string file) =>
        ["-f", "--seccomp-bpf", "-ttt", "-y", "-xx", "-s", "4000000", "-e", "signal=none", "-e", $"trace={Calls}", "-o", file];

    /// <summary>Reads a recording; steps outside <paramref name="folder"/> are left out.</summary>
    public static DiskTrace Read(string file, string folder)
    {
        var trace = new DiskTrace();
        foreach (var line in File.ReadLines(file))
        {
            trace.Take(line);
        }

        bool IsKept(DiskStep? step) => step is not null && (step.Act == DiskAct.Say || step.Path == folder || step.Path.StartsWith(folder + "/", StringComparison.Ordinal));

        // A flush tells how many steps stood before it; that number changes with those that are left out.
        var places = new int[trace._steps.Count + 1];
        for (var i = 0; i < trace._steps.Count; i++)
        {
            places[i + 1] = places[i] + (IsKept(trace._steps[i]) ? 1 : 0);
        }

        trace.Steps = [.. trace._steps.Where(IsKept).Select(step => step!.Act == DiskAct.Flush ? step with { At = places[step.At] } : step!)];
        return trace;
    }

    private void Take(string line)
    {
        if (Whole().Match(line) is { Success: true } whole)
        {
            var (process, time, text) = (whole.Groups[1].Value, double.Parse(whole.Groups[2].Value, CultureInfo.InvariantCulture), whole.Groups[3].Value);
            if (text.EndsWith(" <unfinished ...>", StringComparison.Ordinal))
            {
                _unfinished[process] = (text[..^" <unfinished ...>".Length], time, _steps.Count);
                _steps.Add(null);
            }
            else if (Resumed().Match(text) is { Success: true } resumed)
            {
                if (_unfinished.Remove(process, out var began))
                {
                    Add(began.Text + resumed.Groups[1].Value, began.Time, time, began.Place);
                }
            }
            else
            {
                Add(text, time, time, null);
            }
        }
    }

    private void Add(string text, double began, double ended, int? place)
    {
        if (Escalation().Match(text) is not { Success: true } call || call.Groups[3].Value.StartsWith('-'))
        {
            return;
        }

        var (name, arguments, result) = (call.Groups[1].Value, Arguments(call.Groups[2].Value), call.Groups[3].Value);
        var count = long.TryParse(result.Split('<')[0], CultureInfo.InvariantCulture, out var number) ? number : 0;
        var step = Step(name, arguments, result, count, began, ended, place ?? _steps.Count);
        if (step?.Act == DiskAct.Flush || place is null)
        {
            _steps.Add(step);
        }
        else
        {
            _steps[place.Value] = step;
        }
    }

    private static DiskStep? Step(string name, List<string> arguments, string result, long count, double began, double ended, int place) => name switch
    {
        "openat" => arguments[2].Contains("O_CREAT", StringComparison.Ordinal) ? new(DiskAct.Create, began, Named(result), "", arguments[2].Contains("O_TRUNC", StringComparison.Ordinal) ? 1 : 0, []) : null,
        "pwrite64" => new(DiskAct.Write, began, Named(arguments[0]), "", Number(arguments[3]), Bytes(arguments[1])[..(int)count]),
        "write" => IsFile(arguments[0])
            ? throw new NotSupportedException($"a write without a place to {Named(arguments[0])}: the order of such writes is not known here")
            : new(DiskAct.Say, began, Named(arguments[0]), "", 0, Bytes(arguments[1])[..(int)count]),
        "ftruncate" => new(DiskAct.Truncate, began, Named(arguments[0]), "", Number(arguments[1]), []),
        "fsync" or "fdatasync" => new(DiskAct.Flush, ended, Named(arguments[0]), "", place, []),
        "mkdir" => new(DiskAct.MakeFolder, began, Text(arguments[0]), "", 0, []),
        "rename" => new(DiskAct.Rename, began, Text(arguments[0]), Text(arguments[1]), 0, []),
        "link" => new(DiskAct.Link, began, Text(arguments[0]), Text(arguments[1]), 0, []),
        "unlink" => new(DiskAct.Remove, began, Text(arguments[0]), "", 0, []),
        "sendto" => new(DiskAct.Say, began, Named(arguments[0]), "", 0, Bytes(arguments[1])[..(int)count]),
        "sendmsg" => new(DiskAct.Say, began, Named(arguments[0]), "", 0, [.. Vector().Matches(string.Join(", ", arguments)).SelectMany(part => Bytes(part.Groups[1].Value)).Take((int)count)]),
        _ => throw new NotSupportedException($"the program used {name}, which is not known here"),
    };

    /// <summary>Splits at commas outside quotes, brackets and braces.</summary>
    private static List<string> Arguments(string text)
    {
        var (parts, depth, quoted, from) = (new List<string>(), 0, false, 0);
        for (var i = 0; i < text.Length; i++)
        {
            quoted ^= text[i] == '"';
            depth += quoted ? 0 : text[i] is '[' or '{' ? 1 : text[i] is ']' or '}' ? -1 : 0;
            if (text[i] == ',' && !quoted && depth == 0)
            {
                parts.Add(text[from..i].Trim());
                from = i + 1;
            }
        }

        parts.Add(text[from..].Trim());
        return parts;
    }

    private static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);

    /// <summary>The name that strace puts behind a descriptor.</summary>
    private static string Named(string descriptor) =>
        descriptor.IndexOf('<', StringComparison.Ordinal) is var from && from < 0 ? descriptor : Encoding.UTF8.GetString(Unescape(descriptor[(from + 1)..].Split('>')[0]));

    private static bool IsFile(string descriptor) => Named(descriptor) is var name && name.StartsWith('/') && !name.StartsWith("/proc/", StringComparison.Ordinal) && !name.StartsWith("/dev/", StringComparison.Ordinal)
        && !name.StartsWith("/memfd", StringComparison.Ordinal) && !name.StartsWith("/sys/", StringComparison.Ordinal) && !name.StartsWith("/tmp/clr-debug", StringComparison.Ordinal);

    private static string Text(string quoted) => Encoding.UTF8.GetString(Bytes(quoted));

    private static byte[] Bytes(string quoted) => Unescape(quoted[1..quoted.LastIndexOf('"')]);

    private static byte[] Unescape(string text)
    {
        if (!text.StartsWith("\\x", StringComparison.Ordinal))
        {
            return Encoding.UTF8.GetBytes(text);
        }

        var bytes = new byte[text.Length / 4];
        for (var i = 0; i < bytes.Length; i++)
        {
            bytes[i] = (byte)((Convert.FromHexString(text.AsSpan(4 * i + 2, 2)))[0]);
        }

        return bytes;
    }

    [GeneratedRegex(@"^(\d+) +(\d+\.\d+) (.*)$")]
    private static partial Regex Whole();

    [GeneratedRegex(@"^<\.\.\. \w+ resumed>(.*)$")]
    private static partial Regex Resumed();

    [GeneratedRegex(@"^(\w+)\((.*)\) += (-?[^ ]+)")]
    private static partial Regex Escalation();

    [GeneratedRegex("iov_base=(\"[^\"]*\")")]
    private static partial Regex Vector();
}
