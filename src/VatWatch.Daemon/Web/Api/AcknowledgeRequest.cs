namespace VatWatch.Daemon.Web.Api;

/// <summary>Body of an acknowledgement.</summary>
/// <param name="By">Who has seen the alarm, 1 to 60 characters.</param>
internal sealed record AcknowledgeRequest(string? By);
