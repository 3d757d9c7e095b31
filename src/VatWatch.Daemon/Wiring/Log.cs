namespace VatWatch.Daemon.Wiring;

internal static partial class Log
{
    [LoggerMessage(EventId = 9201, Level = LogLevel.Information, Message = "Watching {Site}: {Vats}, {Probes}. Page {Url}, topics on {Broker}. VatWatch is not a safety device.")]
    public static partial void Watching(ILogger logger, string site, string vats, string probes, string url, string broker);

    [LoggerMessage(EventId = 9202, Level = LogLevel.Information, Message = "This vat is simulated, {Speed} times as fast as life; its clock runs ahead of the wall's.")]
    public static partial void Simulated(ILogger logger, double speed);

    [LoggerMessage(EventId = 9203, Level = LogLevel.Warning, Message = "Verbs that ask the running daemon, such as `vatwatch alarms acknowledge`, do not reach it: {Fault}. Pages and topics do all the same.")]
    public static partial void NoLocalSocket(ILogger logger, string fault);
}
