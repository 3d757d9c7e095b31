using Serilog.Core;
using Serilog.Events;

namespace VatWatch.Daemon.Wiring;

/// <summary>Puts the time of the site's wall beside each line of the log, which has the machine's.</summary>
internal sealed class WallTimeEnricher(TimeZoneInfo zone) : ILogEventEnricher
{
    /// <summary>The property it adds.</summary>
    public const string Name = "WallTime";

    public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory) =>
        logEvent.AddPropertyIfAbsent(new LogEventProperty(Name, new ScalarValue(TimeZoneInfo.ConvertTime(logEvent.Timestamp, zone))));
}
