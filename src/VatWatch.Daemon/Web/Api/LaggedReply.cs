namespace VatWatch.Daemon.Web.Api;

/// <summary>Tells a follower of the event stream that it was too slow.</summary>
/// <param name="Lost">Events it has lost since it began to follow.</param>
internal sealed record LaggedReply(long Lost);
