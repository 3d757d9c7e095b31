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

    [LoggerMessage(8004, LogLevel.Warning, "{Times} wrong passwords from {Address}; the next ones from there wait before they are looked at")]
    public static partial void PasswordsSlowed(ILogger logger, IPAddress? address, int times);

    [LoggerMessage(8005, LogLevel.Information, "Signed out from {Address}; the session is over")]
    public static partial void SignedOut(ILogger logger, IPAddress? address);

    [LoggerMessage(8006, LogLevel.Information, "Token {Token} ({Role}) is used from {Address}")]
    public static partial void TokenUsed(ILogger logger, string token, string role, IPAddress? address);

    [LoggerMessage(8007, LogLevel.Information, "{Method} {Path} by token {Token} from {Address}")]
    public static partial void ChangedByToken(ILogger logger, string method, string path, string token, IPAddress? address);

    [LoggerMessage(8008, LogLevel.Warning, "A token that is none of ours, from {Address}")]
    public static partial void WrongToken(ILogger logger, IPAddress? address);

    [LoggerMessage(8009, LogLevel.Warning, "The list of ended sessions cannot be kept on the disk: {Reason}; until the next start they are ended all the same")]
    public static partial void SessionsNotKept(ILogger logger, string reason);

    [LoggerMessage(8010, LogLevel.Error, "{Sentence} The watch goes on, and this is tried again and again.")]
    public static partial void PagesNotServed(ILogger logger, string sentence);

    [LoggerMessage(8011, LogLevel.Information, "The pages are served at {Url} from here on")]
    public static partial void PagesServed(ILogger logger, string url);

    [LoggerMessage(8003, LogLevel.Warning, "Pages at {Url} can be reached from other computers without encryption: the password and the pages travel readable; listen on https with web.certificateFile and web.keyFile")]
    public static partial void Unencrypted(ILogger logger, string url);
}
