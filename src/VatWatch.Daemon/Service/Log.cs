namespace VatWatch.Daemon.Service;

internal static partial class Log
{
    [LoggerMessage(EventId = 9501, Level = LogLevel.Critical, Message = "No progress: {Stages}. The service manager is no longer told that all is well, and will start VatWatch again.")]
    public static partial void Stuck(ILogger logger, string stages);

    [LoggerMessage(EventId = 9502, Level = LogLevel.Warning, Message = "Every stage makes progress again.")]
    public static partial void Unstuck(ILogger logger);
}
