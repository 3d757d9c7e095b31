using VatWatch.Alarms.Journal;
using VatWatch.Daemon.Web.Api;

namespace VatWatch.Daemon.Verbs.Alarms;

/// <summary>What <c>vatwatch alarms --json</c> writes.</summary>
/// <param name="DaemonRuns">Whether a daemon uses the folder; if not, this is how things stood when it stopped.</param>
/// <param name="Alarms">Every alarm that is not in normal, as <c>/api/alarms</c> gives it.</param>
/// <param name="Journal">The changes asked for; null when not asked for.</param>
/// <param name="Week">The figures; null when not asked for.</param>
internal sealed record AlarmsDocument(bool DaemonRuns, IReadOnlyList<AlarmDocument> Alarms, IReadOnlyList<AlarmChangeDocument>? Journal, AlarmWeekReply? Week);
