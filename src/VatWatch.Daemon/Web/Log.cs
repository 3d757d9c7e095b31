using System.Net;

namespace VatWatch.Daemon.Web;

/// <summary>Log sentences of the web side; event ids 8000 to 8099.</summary>
internal static partial class Log
{
    [LoggerMessage(8000, LogLevel.Error, "Request {Method} {Path} failed; the browser got a plain error page, nothing else is affected")]
    public static partial void RequestFailed(ILogger logger, Exception problem, string method, string path);

    [LoggerMessage(8001, LogLevel.Information, "Signed in as {Role} from {Address}")]
    public static partial void SignedIn(ILogger logger, string role, IPAddress? address);

    [LoggerMessage(8002, LogLevel.Warning, "Wrong password from {Address}")]
    public static partial void WrongPassword(ILogger logger, IPAddress? address);

    [LoggerMessage(8003, LogLevel.Warning, "Pages at {Url} can be reached from other computers without encryption: the password and the pages travel readable; listen on https with web.certificateFile and web.keyFile")]
    public static partial void Unencrypted(ILogger logger, string url);
}
