namespace VatWatch.Daemon.Web.Bench;

/// <summary>What an electrode in a solution shows now.</summary>
/// <param name="Millivolts">Newest voltage, mV; null without one.</param>
/// <param name="WhyNone">Why there is none, as a clause.</param>
/// <param name="Age">Age of the newest reading; null before the first.</param>
/// <param name="TrendMillivolts">Change along the trend over the window, mV; null while there is too little to tell.</param>
/// <param name="Steadiness">How near it is to rest, 0 to 1.</param>
/// <param name="Rest">Where it rests and how long it took to; null while it does not rest.</param>
/// <param name="Window">How long it must have been at rest.</param>
public sealed record ElectrodeSnapshot(
    double? Millivolts, string? WhyNone, TimeSpan? Age, double? TrendMillivolts, double Steadiness, (double Millivolts, TimeSpan Settling)? Rest, TimeSpan Window);
