using Microsoft.Extensions.Logging;

namespace VatWatch.Store;

/// <summary>Log sentences of the store; event ids 3000 to 3099.</summary>
internal static partial class Log
{
    [LoggerMessage(3001, LogLevel.Information, "Store in '{Folder}': opened as run {Run}, schema {Version}.")]
    public static partial void Opened(this ILogger log, string folder, long run, int version);

    [LoggerMessage(3002, LogLevel.Error, "{Sentence}")]
    public static partial void Quarantined(this ILogger log, string sentence);

    [LoggerMessage(3003, LogLevel.Error, "{Count} readings stay in memory, next try in {Seconds} s. {Reason}")]
    public static partial void CommitFailed(this ILogger log, int count, double seconds, string reason);

    [LoggerMessage(3004, LogLevel.Information, "Store in '{Folder}': commits succeed again after {Seconds} s; {Count} readings written, {Dropped} lost in all.")]
    public static partial void CommitResumed(this ILogger log, string folder, double seconds, int count, long dropped);

    [LoggerMessage(3005, LogLevel.Error, "Store in '{Folder}': {Bound} readings wait for the disk; the oldest are now dropped and counted.")]
    public static partial void Dropping(this ILogger log, string folder, int bound);

    [LoggerMessage(3006, LogLevel.Error, "Store in '{Folder}': stopped with {Count} readings that could not be written; they are lost.")]
    public static partial void LostAtStop(this ILogger log, string folder, int count);

    [LoggerMessage(3007, LogLevel.Information, "Store in '{Folder}': closed.")]
    public static partial void Closed(this ILogger log, string folder);
}
