using Microsoft.Extensions.Logging;

namespace VatWatch.Pipeline;

internal static partial class Log
{
    [LoggerMessage(EventId = 9101, Level = LogLevel.Information, Message = "{Vat} is {State}: {Reason}")]
    public static partial void ConditionChanged(ILogger logger, string vat, string state, string reason);

    [LoggerMessage(EventId = 9102, Level = LogLevel.Warning, Message = "Alarm {Alarm} of {Vat}, {Priority}, is {State}: {Text}")]
    public static partial void AlarmEntered(ILogger logger, string alarm, string vat, string priority, string state, string text);

    [LoggerMessage(EventId = 9103, Level = LogLevel.Information, Message = "Alarm {Alarm} of {Vat} is {State}{By}: {Text}")]
    public static partial void AlarmChanged(ILogger logger, string alarm, string vat, string state, string by, string text);

    [LoggerMessage(EventId = 9107, Level = LogLevel.Debug, Message = "Alarm {Alarm} of {Vat} is {State}: {Text}")]
    public static partial void AlarmMoved(ILogger logger, string alarm, string vat, string state, string text);

    [LoggerMessage(EventId = 9105, Level = LogLevel.Error, Message = "{Count} alarm changes are told without being in the store, and kept in memory; next try in {Seconds} s. {Reason}")]
    public static partial void JournalWaits(ILogger logger, int count, double seconds, string reason);

    [LoggerMessage(EventId = 9106, Level = LogLevel.Information, Message = "Alarm changes are written to the store again; {Count} were waiting.")]
    public static partial void JournalResumed(ILogger logger, int count);

    [LoggerMessage(EventId = 9108, Level = LogLevel.Information, Message = "Calibration {Row} of probe {Probe}, made {Utc:u}, is in use from here on.")]
    public static partial void CalibrationTaken(ILogger logger, long row, string probe, DateTimeOffset utc);

    [LoggerMessage(EventId = 9109, Level = LogLevel.Error, Message = "Calibration {Row} of probe {Probe} was left out: {Reason}.")]
    public static partial void CalibrationLeftOut(ILogger logger, long row, string probe, string reason);

    [LoggerMessage(EventId = 9110, Level = LogLevel.Warning, Message = "Part '{Stage}' goes on with what it knows and tries again in {Seconds} s, because the store could not be used: {Reason}")]
    public static partial void StageWaits(ILogger logger, string stage, double seconds, string reason);

    [LoggerMessage(EventId = 9111, Level = LogLevel.Error, Message = "The log book of {Vat} could not be written: {Reason}")]
    public static partial void LogBookNotWritten(ILogger logger, string vat, string reason);

    [LoggerMessage(EventId = 9115, Level = LogLevel.Information, Message = "Note beside {Alarm} of {Vat} (by {By}): {Note}")]
    public static partial void NoteTaken(ILogger logger, string alarm, string vat, string by, string note);

    [LoggerMessage(EventId = 9116, Level = LogLevel.Warning, Message = "The plan of {Vat} was not written: {Reason}")]
    public static partial void PlanNotWritten(ILogger logger, string vat, string reason);

    [LoggerMessage(EventId = 9120, Level = LogLevel.Warning, Message = "The computer's clock was set {Direction} by {Seconds} s, from {Before:u} to {Now:u}; durations are not touched, nothing is written over.")]
    public static partial void ClockSet(ILogger logger, string direction, double seconds, DateTimeOffset before, DateTimeOffset now);

    [LoggerMessage(EventId = 9121, Level = LogLevel.Information, Message = "The computer's clock is trusted from {Now:u} on; earlier readings of this run get the right time when they are read.")]
    public static partial void ClockTrusted(ILogger logger, DateTimeOffset now);

    [LoggerMessage(EventId = 9122, Level = LogLevel.Warning, Message = "The computer's clock says {Now:u}, which is before {Year}; times are not trusted until it is set.")]
    public static partial void ClockUntrusted(ILogger logger, DateTimeOffset now, int year);

    [LoggerMessage(EventId = 9123, Level = LogLevel.Warning, Message = "Nothing was watched for {Seconds} s: VatWatch was halted, or the computer slept.")]
    public static partial void StoodStill(ILogger logger, double seconds);
}
