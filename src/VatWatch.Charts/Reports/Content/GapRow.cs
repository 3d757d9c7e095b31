namespace VatWatch.Charts.Reports.Content;

/// <summary>One stretch without values, as a report tells it.</summary>
/// <param name="Probe">The probe.</param>
/// <param name="What">"no record", "no answer" or "fault".</param>
/// <param name="From">Start.</param>
/// <param name="To">End.</param>
/// <param name="Length">How long.</param>
/// <param name="Reason">The first reason given; empty when nothing was recorded.</param>
internal sealed record GapRow(string Probe, string What, string From, string To, string Length, string Reason);
