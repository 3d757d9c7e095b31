namespace VatWatch.Daemon.Web.Api;

/// <summary>Tells a follower of the event stream that the log book of a vat has changed.</summary>
/// <param name="Vat">The vat.</param>
internal sealed record SessionChangeReply(string Vat);
