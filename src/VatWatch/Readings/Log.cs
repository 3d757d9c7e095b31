using Microsoft.Extensions.Logging;

namespace VatWatch.Readings;

/// <summary>Sentences of this folder; event ids 2000 to 2099.</summary>
internal static partial class Log
{
    [LoggerMessage(2000, LogLevel.Information, "Bus '{Bus}' ({Device}) is open.")]
    public static partial void BusOpen(ILogger logger, BusId bus, string device);

    [LoggerMessage(2001, LogLevel.Warning, "Bus '{Bus}' ({Device}) gives no readings: {Reason}; its probes read as faults while it is tried again.")]
    public static partial void BusAway(ILogger logger, BusId bus, string device, string reason);

    [LoggerMessage(2002, LogLevel.Information, "Bus '{Bus}' ({Device}) gives readings again after {Seconds:0.0} s.")]
    public static partial void BusBack(ILogger logger, BusId bus, string device, double seconds);

    [LoggerMessage(2003, LogLevel.Warning, "Bus '{Bus}' ({Device}) did not close within {Seconds} s; it is left behind and a new one is opened.")]
    public static partial void CloseStuck(ILogger logger, BusId bus, string device, double seconds);

    [LoggerMessage(2010, LogLevel.Warning, "Probe '{Probe}' on bus '{Bus}' ({Device}) gives no value: {Reason}; next try in {Seconds} s.")]
    public static partial void ProbeLost(ILogger logger, ProbeId probe, BusId bus, string device, string reason, double seconds);

    [LoggerMessage(2011, LogLevel.Information, "Probe '{Probe}' on bus '{Bus}' gives values again.")]
    public static partial void ProbeBack(ILogger logger, ProbeId probe, BusId bus);
}
