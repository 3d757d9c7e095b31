namespace VatWatch.Vats.Configuration;

/// <summary>Collects every fault of one configuration so that all are told at once. Not thread safe.</summary>
public sealed class ConfigFaults
{
    private readonly List<ConfigFault> _faults = [];
    private readonly HashSet<ConfigFault> _known = [];

    /// <summary>What was found, in the order of the file.</summary>
    public IReadOnlyList<ConfigFault> All => _faults;

    /// <summary>What was read, right or wrong.</summary>
    public ConfigLedger Ledger { get; } = new();

    /// <summary>The folder of the configuration file; names of other files in it start from there. Empty for the current folder.</summary>
    public string Folder { get; internal set; } = "";

    /// <summary>Time zone of the site; other zones that a configuration leaves out are this one. The machine's until <c>timeZone</c> is read.</summary>
    public TimeZoneInfo Zone { get; internal set; } = TimeZoneInfo.Local;

    /// <summary>Where to note the path of every key that is asked for, present or not; null, the usual, notes nothing. A test holds the schema to it.</summary>
    public ISet<string>? Asked { get; init; }

    /// <summary>Files one fault.</summary>
    public void Add(string path, string seen, string wanted)
    {
        var fault = new ConfigFault(path, seen, wanted);
        if (_known.Add(fault))
        {
            _faults.Add(fault);
        }
    }
}

/// <summary>One thing wrong with the configuration.</summary>
/// <param name="Path">Key path, for example <c>vats[0].temperature.low</c>; empty for the file as a whole.</param>
/// <param name="Seen">What stands there, as written.</param>
/// <param name="Wanted">What should stand there.</param>
public sealed record ConfigFault(string Path, string Seen, string Wanted)
{
    /// <summary>One sentence for the person who wrote the file.</summary>
    public override string ToString() => $"{(Path.Length == 0 ? "the configuration" : Path)} is {Seen}; wanted {Wanted}.";
}
