using System.ComponentModel.DataAnnotations;

namespace VatWatch.Readings;

/// <summary>How patient the loop of a bus is.</summary>
public sealed class BusLoopOptions
{
    /// <summary>First pause before a bus that could not be opened or was lost is opened again; doubled each time. 0.1 to 60 s; default 0.5 s.</summary>
    [Range(typeof(TimeSpan), "00:00:00.1", "00:01:00")]
    public TimeSpan FirstPause { get; init; } = TimeSpan.FromMilliseconds(500);

    /// <summary>
    /// Longest such pause, 1 s to 10 min; default 3 s: trying costs next to nothing, and a plug that is put back after hours is to be heard within five seconds.
    /// </summary>
    [Range(typeof(TimeSpan), "00:00:01", "00:10:00")]
    public TimeSpan LongestPause { get; init; } = TimeSpan.FromSeconds(3);

    /// <summary>Longest that opening may take, 1 s to 1 min; default 10 s.</summary>
    [Range(typeof(TimeSpan), "00:00:01", "00:01:00")]
    public TimeSpan OpenLimit { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>Longest that closing may take before it is left to end by itself, 0.1 to 10 s; default 2 s.</summary>
    [Range(typeof(TimeSpan), "00:00:00.1", "00:00:10")]
    public TimeSpan CloseLimit { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>
    /// Longest that one sample may take whatever its driver promises, 0.1 s to 10 min; default 60 s. Wide, because a driver keeps its own
    /// shorter limits: this one only frees the bus from a driver that is stuck. For a listening probe twice its period is added.
    /// </summary>
    [Range(typeof(TimeSpan), "00:00:00.1", "00:10:00")]
    public TimeSpan SampleLimit { get; init; } = TimeSpan.FromSeconds(60);
}
