using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace VatWatch.Daemon.Wiring;

/// <summary>What the console says: sentences for people, or one JSON object a line for machines.</summary>
internal static class WatchLogging
{
    private const string HumanLine = "{" + WallTimeEnricher.Name + ":HH:mm:ss} {Message:lj}{NewLine}{Exception}";

    /// <summary>Logs to the console without ever waiting for it; <paramref name="console"/> is disposed of with the logger.</summary>
    /// <param name="json">For machines; people read times of <paramref name="zone"/>.</param>
    /// <param name="console">Where the lines go.</param>
    public static Logger Create(bool json, TimeZoneInfo zone, out BackgroundSink console)
    {
        console = new BackgroundSink(Console(json, zone));
        return new LoggerConfiguration()
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("Microsoft.Extensions.Hosting", LogEventLevel.Fatal)
            .MinimumLevel.Override("Microsoft.Hosting", LogEventLevel.Fatal)
            .MinimumLevel.Override("Microsoft.AspNetCore.Antiforgery", LogEventLevel.Error)
            .MinimumLevel.Override("Microsoft.AspNetCore.DataProtection", LogEventLevel.Error)
            .MinimumLevel.Override("Microsoft.AspNetCore.Server.Kestrel", LogEventLevel.Error)
            .WriteTo.Sink(console)
            .CreateLogger();
    }

    private static Logger Console(bool json, TimeZoneInfo zone)
    {
        var logging = new LoggerConfiguration();
        return json
            ? logging.WriteTo.Console(new RenderedCompactJsonFormatter()).CreateLogger()
            : JournalLine.IsWanted(Environment.GetEnvironmentVariable)
            ? logging.WriteTo.Console(new JournalLine()).CreateLogger()
            : logging.Enrich.With(new WallTimeEnricher(zone)).WriteTo.Console(new TerminalLine(HumanLine)).CreateLogger();
    }
}

/// <summary>Puts the time of the site's wall beside each line of the log, which has the machine's.</summary>
internal sealed class WallTimeEnricher(TimeZoneInfo zone) : ILogEventEnricher
{
    /// <summary>The property it adds.</summary>
    public const string Name = "WallTime";

    public void Enrich(LogEvent logEvent, ILogEventPropertyFactory propertyFactory) =>
        logEvent.AddPropertyIfAbsent(new LogEventProperty(Name, new ScalarValue(TimeZoneInfo.ConvertTime(logEvent.Timestamp, zone))));
}
