namespace VatWatch.Daemon.Web.Api;

/// <summary>The act is on disk.</summary>
/// <param name="Vat">The vat, or "daemon".</param>
/// <param name="Alarm">The alarm; null for a note about the vat.</param>
/// <param name="Act">What was done.</param>
/// <param name="By">Who did it.</param>
/// <param name="Sentence">What came of it.</param>
internal sealed record AlarmActReply(string Vat, string? Alarm, string Act, string By, string Sentence);
