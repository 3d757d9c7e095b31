namespace VatWatch.Daemon.Web.Api;

/// <summary>The acknowledgement is on disk.</summary>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Alarm">The alarm.</param>
/// <param name="By">Who has seen it.</param>
internal sealed record AcknowledgeReply(string Vat, string Alarm, string By);
