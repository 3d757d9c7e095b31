namespace VatWatch.Daemon.Web;

/// <summary>The pages cannot be served; the message is a sentence for the person who started the daemon.</summary>
internal sealed class WebStartException(string message, Exception inner) : Exception(message, inner);
