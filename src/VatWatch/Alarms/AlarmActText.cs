namespace VatWatch.Alarms;

/// <summary>What came of an act, in words.</summary>
public static class AlarmActText
{
    /// <summary>Why nothing was done, as a clause.</summary>
    public static string NothingDone(AlarmAct act)
    {
        var why = act.Kind switch
        {
            AlarmActKind.Acknowledge => "that waits for an acknowledgement",
            AlarmActKind.Shelve => "that could be shelved: there is none of that name, or it is set aside already",
            AlarmActKind.Unshelve => "on the shelf",
            AlarmActKind.TakeOutOfService => "that could be taken out of service: there is none of that name, or it is so already",
            AlarmActKind.ReturnToService => "out of service",
            AlarmActKind.Reset => "that is latched and acknowledged",
            _ => "to write a note beside",
        };
        return act.Kind == AlarmActKind.Note && act.Alarm == AlarmName.Note
            ? $"there is no vat '{act.Vat}'"
            : $"vat '{act.Vat}' has no alarm '{act.Alarm}' {why}";
    }

    /// <summary>What was done, as a sentence.</summary>
    public static string Done(AlarmActKind kind, AlarmChange change)
    {
        var status = change.Status;
        var alarm = $"{status.Alarm} of {status.Vat}";
        return (kind, status.SetAside) switch
        {
            (AlarmActKind.Note, _) => "The note is in the journal.",
            (AlarmActKind.Shelve, { Until: { } until }) => $"{alarm} is shelved for {DisplayUnits.Duration(until - change.Stamp.Utc)}.",
            (AlarmActKind.Acknowledge, _) => $"{alarm} is acknowledged by {change.By}.",
            _ => $"{alarm} is now {status.State.Word()}.",
        };
    }
}
