namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>What the verb was asked to list.</summary>
/// <param name="WantsJournal">The journal too.</param>
/// <param name="From">Its start, as typed.</param>
/// <param name="To">Its end, as typed.</param>
/// <param name="WantsWeek">The figures of seven days too.</param>
/// <param name="AsJson">For other programs.</param>
internal sealed record AlarmQuestion(bool WantsJournal, string? From, string? To, bool WantsWeek, bool AsJson);
