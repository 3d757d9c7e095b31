using VatWatch.Alarms;

namespace VatWatch.Notifications;

/// <summary>One sentence on its way to a person; a row of the outbox until it is delivered.</summary>
/// <param name="Id">Row of the outbox; grows with time.</param>
/// <param name="Vat">The vat it is about.</param>
/// <param name="Alarm">The alarm it is about.</param>
/// <param name="Priority">Priority of that alarm.</param>
/// <param name="Created">When the alarm changed, UTC.</param>
/// <param name="Sentence">What the phone shows.</param>
public sealed record Notification(long Id, VatId Vat, AlarmName Alarm, AlarmPriority Priority, DateTimeOffset Created, string Sentence)
{
    /// <summary>The alarm at that moment, as its topic shows it (JSON); null for a sentence about no single alarm.</summary>
    public string? Document { get; init; }

    /// <summary>Told again with nothing new, so of no use while the one before still waits; not kept in the outbox.</summary>
    public bool IsRepeat { get; init; }
}
