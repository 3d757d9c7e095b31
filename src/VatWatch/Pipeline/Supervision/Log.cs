using Microsoft.Extensions.Logging;

namespace VatWatch.Pipeline.Supervision;

internal static partial class Log
{
    [LoggerMessage(EventId = 9001, Level = LogLevel.Warning, Message = "Stage '{Stage}' stopped ({Fault}); it is started again in {Seconds} s.")]
    public static partial void Restarting(ILogger logger, string stage, string fault, double seconds);

    [LoggerMessage(EventId = 9002, Level = LogLevel.Critical, Message = "Stage '{Stage}' failed {Failures} times in a row, last: {Fault}. Giving up; the service manager has to start VatWatch again.")]
    public static partial void GivingUp(ILogger logger, string stage, int failures, string fault);

    [LoggerMessage(EventId = 9003, Level = LogLevel.Debug, Message = "Stage '{Stage}' failed.")]
    public static partial void Failed(ILogger logger, Exception exception, string stage);

    [LoggerMessage(EventId = 9004, Level = LogLevel.Warning, Message = "Stage '{Stage}' did not stop within {Seconds} s and is left behind.")]
    public static partial void LeftBehind(ILogger logger, string stage, double seconds);
}
