namespace VatWatch.Alarms;

/// <summary>How many messages a person can take, after the measures of ANSI/ISA-18.2: no more than 10 in any 10 minutes.</summary>
public sealed record FloodLimits
{
    /// <summary>Messages in one <see cref="Window"/> before the flood begins; 1 to 100.</summary>
    public int Most { get; init; } = 10;

    /// <summary>Length of the window; 1 min to 1 h.</summary>
    public TimeSpan Window { get; init; } = TimeSpan.FromMinutes(10);

    /// <summary>The flood is over when fewer than this many came within the window.</summary>
    public int Calm { get; init; } = 5;

    /// <summary>In a flood, critical alarms are told together and no oftener than this.</summary>
    public TimeSpan CriticalEvery { get; init; } = TimeSpan.FromMinutes(2);
}
