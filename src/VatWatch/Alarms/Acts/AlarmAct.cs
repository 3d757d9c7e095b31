using System.Text.Json.Serialization;

namespace VatWatch.Alarms.Acts;

/// <summary>What a person does with an alarm. Made by <see cref="AlarmRequest.TryMake"/>, so it is whole and clean.</summary>
/// <param name="Vat">The vat, or <see cref="VatId.Daemon"/>.</param>
/// <param name="Alarm">The alarm; <see cref="AlarmName.Note"/> for a note about the vat itself.</param>
/// <param name="By">Who, as they gave it: 1 to 60 characters that can be shown.</param>
/// <param name="Via">The way it came: <c>mqtt</c>, <c>page</c>, <c>api</c> or <c>verb</c>.</param>
public sealed record AlarmAct(AlarmActKind Kind, VatId Vat, AlarmName Alarm, string By, string Via)
{
    /// <summary>How long it is shelved; cut down to the longest that the alarm's settings allow. Zero for other acts.</summary>
    public TimeSpan For { get; init; }

    /// <summary>The reason of setting it aside, or the note; 1 to 200 characters that can be shown. Null for other acts.</summary>
    public string? Text { get; init; }

    /// <summary>Why nothing was done, as a clause.</summary>
    public string NothingDone()
    {
        var why = Kind switch
        {
            AlarmActKind.Acknowledge => "that waits for an acknowledgement",
            AlarmActKind.Shelve => "that could be shelved: there is none of that name, or it is set aside already",
            AlarmActKind.Unshelve => "on the shelf",
            AlarmActKind.TakeOutOfService => "that could be taken out of service: there is none of that name, or it is so already",
            AlarmActKind.ReturnToService => "out of service",
            AlarmActKind.Reset => "that is latched and acknowledged",
            _ => "to write a note beside",
        };
        return Kind == AlarmActKind.Note && Alarm == AlarmName.Note
            ? $"there is no vat '{Vat}'"
            : $"vat '{Vat}' has no alarm '{Alarm}' {why}";
    }

    /// <summary>What was done, as a sentence.</summary>
    public string Done(AlarmChange change)
    {
        var status = change.Status;
        var alarm = $"{status.Alarm} of {status.Vat}";
        return (Kind, status.SetAside) switch
        {
            (AlarmActKind.Note, _) => "The note is in the journal.",
            (AlarmActKind.Shelve, { Until: { } until }) => $"{alarm} is shelved for {DisplayUnits.Duration(until - change.Stamp.Utc)}.",
            (AlarmActKind.Acknowledge, _) => $"{alarm} is acknowledged by {change.By}.",
            _ => $"{alarm} is now {status.State.Word()}.",
        };
    }
}

/// <summary>What a person may do with an alarm.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<AlarmActKind>))]
public enum AlarmActKind
{
    /// <summary>Says that somebody has seen it.</summary>
    [JsonStringEnumMemberName("acknowledge")]
    Acknowledge,

    /// <summary>Sets it aside for a limited time.</summary>
    [JsonStringEnumMemberName("shelve")]
    Shelve,

    /// <summary>Takes it off the shelf before its time.</summary>
    [JsonStringEnumMemberName("unshelve")]
    Unshelve,

    /// <summary>Takes it out of service until somebody returns it.</summary>
    [JsonStringEnumMemberName("out-of-service")]
    TakeOutOfService,

    /// <summary>Puts it back into service.</summary>
    [JsonStringEnumMemberName("return-to-service")]
    ReturnToService,

    /// <summary>Ends a latched alarm that was acknowledged.</summary>
    [JsonStringEnumMemberName("reset")]
    Reset,

    /// <summary>Writes a line beside it into the journal; changes nothing.</summary>
    [JsonStringEnumMemberName("note")]
    Note,
}
