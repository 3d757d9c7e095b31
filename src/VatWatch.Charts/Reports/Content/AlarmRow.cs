namespace VatWatch.Charts.Reports.Content;

/// <summary>One standing of an alarm, as a report tells it.</summary>
/// <param name="Alarm">Its name.</param>
/// <param name="Priority">Its priority.</param>
/// <param name="Text">What it said.</param>
/// <param name="Entered">When it entered.</param>
/// <param name="Acknowledged">When, by whom and after how long it was acknowledged, or that it was not.</param>
/// <param name="Ended">When it returned or was set aside, or that it still stands.</param>
internal sealed record AlarmRow(string Alarm, string Priority, string Text, string Entered, string Acknowledged, string Ended);
