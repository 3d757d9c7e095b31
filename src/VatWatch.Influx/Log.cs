using Microsoft.Extensions.Logging;

namespace VatWatch.Influx;

internal static partial class Log
{
    [LoggerMessage(EventId = 9401, Level = LogLevel.Warning, Message = "Server {Host} does not take points: {Reason}. {Waiting} readings wait in the store; the next try follows by itself.")]
    public static partial void Waits(ILogger logger, string host, string reason, long waiting);

    [LoggerMessage(EventId = 9402, Level = LogLevel.Information, Message = "Server {Host} takes points again; {Waiting} readings were waiting.")]
    public static partial void Resumed(ILogger logger, string host, long waiting);

    [LoggerMessage(EventId = 9403, Level = LogLevel.Warning, Message = "{Count} points were set aside because server {Host} refuses them; the first: {Reason}: {Line}")]
    public static partial void PointsRefused(ILogger logger, int count, string host, string reason, string line);
}
