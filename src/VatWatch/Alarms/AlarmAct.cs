namespace VatWatch.Alarms;

/// <summary>What a person does with an alarm. Made by <see cref="AlarmRequest.TryMake"/>, so it is whole and clean.</summary>
/// <param name="Kind">What is done.</param>
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
}
