namespace VatWatch.SystemTests.Faults;

/// <summary>
/// The wall clock that one process sees, set while it runs; the monotonic one is left alone (libfaketime, package <c>faketime</c>). Without
/// FAKETIME_FORCE_MONOTONIC_FIX=0 that library stops the monotonic clock as well.
/// </summary>
internal sealed class FakedClock
{
    private readonly string _file;

    public FakedClock(string folder, string setting)
    {
        _file = Path.Combine(folder, "clock");
        Set(setting);
    }

    /// <summary>What the process is to be started with.</summary>
    public IReadOnlyDictionary<string, string> Environment => new Dictionary<string, string>
    {
        ["LD_PRELOAD"] = Library,
        ["FAKETIME_TIMESTAMP_FILE"] = _file,
        ["FAKETIME_DONT_FAKE_MONOTONIC"] = "1",
        ["FAKETIME_FORCE_MONOTONIC_FIX"] = "0",
        ["FAKETIME_NO_CACHE"] = "1",
    };

    private static string Library =>
        Directory.GetFiles("/usr/lib", "libfaketimeMT.so.1", new EnumerationOptions { RecurseSubdirectories = true, IgnoreInaccessible = true, MaxRecursionDepth = 2 }).First();

    /// <summary>Sets it: <c>+0</c>, <c>+2d</c>, <c>-1h</c> from the right time.</summary>
    public void Set(string setting)
    {
        var made = _file + ".new";
        File.WriteAllText(made, setting + "\n");
        File.Move(made, _file, overwrite: true);
    }
}
