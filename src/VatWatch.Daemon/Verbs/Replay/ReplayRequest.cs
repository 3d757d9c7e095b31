using VatWatch.Pipeline.Configuration;

namespace VatWatch.Daemon.Verbs.Replay;

/// <summary>What <c>vatwatch replay</c> was asked for.</summary>
internal sealed record ReplayRequest(string File, string Vat, string? Config, string? Against, string? Out, string? Data, bool Strict, bool Json)
{
    /// <summary>File of what the log book held; null for none.</summary>
    public string? Entries { get; init; }
}

/// <summary>One configuration as a replay uses it.</summary>
internal sealed record ReplaySetting(string Name, VatPlan Plan, DisplayUnits Units)
{
    /// <summary>Time zone of the site.</summary>
    public TimeZoneInfo Zone => Plan.Alarms.Zone;
}
