using System.Globalization;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace VatWatch.Daemon.Wiring;

/// <summary>What the console says: sentences for people, or one JSON object a line for machines.</summary>
internal static class WatchLogging
{
    private const string HumanLine = "{Timestamp:HH:mm:ss} {Message:lj}{NewLine}{Exception}";

    /// <summary>Logs to the console without ever waiting for it; <paramref name="console"/> is disposed of with the logger.</summary>
    public static Logger Create(bool json, out BackgroundSink console)
    {
        console = new BackgroundSink(Console(json));
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

    private static Logger Console(bool json)
    {
        var logging = new LoggerConfiguration();
        return json
            ? logging.WriteTo.Console(new RenderedCompactJsonFormatter()).CreateLogger()
            : JournalLine.IsWanted(Environment.GetEnvironmentVariable)
            ? logging.WriteTo.Console(new JournalLine()).CreateLogger()
            : logging.WriteTo.Console(outputTemplate: HumanLine, formatProvider: CultureInfo.InvariantCulture).CreateLogger();
    }
}
