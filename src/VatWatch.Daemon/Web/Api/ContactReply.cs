namespace VatWatch.Daemon.Web.Api;

/// <summary>What became of a test message.</summary>
internal sealed record ContactReply(string Contact, string Way, bool Sent, string Answer);
