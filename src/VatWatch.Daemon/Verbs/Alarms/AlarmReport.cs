using VatWatch.Alarms;
using VatWatch.Alarms.Figures;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>What the verb prints.</summary>
/// <param name="LeftFolder">The data folder when no daemon runs on it; null when one does.</param>
/// <param name="Alarms">Every alarm that is not in normal.</param>
/// <param name="Journal">The changes asked for; null when not asked for.</param>
/// <param name="Week">The figures; null when not asked for.</param>
internal sealed record AlarmReport(string? LeftFolder, IReadOnlyList<AlarmStatus> Alarms, IReadOnlyList<AlarmChange>? Journal, AlarmWeek? Week);
