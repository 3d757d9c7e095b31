namespace VatWatch.Pipeline.Supervision;

/// <summary>How one stage is doing.</summary>
/// <param name="Stage">Its name.</param>
/// <param name="IsRunning">Whether it runs now.</param>
/// <param name="Restarts">How often it was started again in this run of the daemon.</param>
/// <param name="LastFault">What ended it the last time, in words; null when nothing did.</param>
public sealed record StageHealth(string Stage, bool IsRunning, long Restarts, string? LastFault);
