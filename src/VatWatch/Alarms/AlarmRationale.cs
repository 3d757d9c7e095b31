namespace VatWatch.Alarms;

/// <summary>Why an alarm exists and what to do about it: the record of rationalisation that IEC 62682 asks for, in the dyer's words.</summary>
/// <param name="Cause">What usually brings it about.</param>
/// <param name="Consequence">What follows when nobody acts.</param>
/// <param name="Action">What to do, in one or two plain sentences.</param>
/// <param name="TimeToRespond">How long there is, in words.</param>
public sealed record AlarmRationale(string Cause, string Consequence, string Action, string TimeToRespond);
