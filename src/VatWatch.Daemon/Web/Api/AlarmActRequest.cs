namespace VatWatch.Daemon.Web.Api;

/// <summary>Body of an act on an alarm.</summary>
/// <param name="By">Who, 1 to 60 characters.</param>
/// <param name="Minutes">How long to shelve, 1 to 1440; the alarm's settings may cut it down. For shelving only.</param>
/// <param name="Reason">Why it is shelved or taken out of service, 1 to 200 characters. For these two only.</param>
/// <param name="Text">The note, 1 to 200 characters. For notes only.</param>
internal sealed record AlarmActRequest(string? By, double? Minutes = null, string? Reason = null, string? Text = null);
