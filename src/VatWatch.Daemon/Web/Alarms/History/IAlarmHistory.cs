using VatWatch.Alarms;
using VatWatch.Alarms.Figures;

namespace VatWatch.Daemon.Web.Alarms.History;

/// <summary>The alarm journal, for reading. Thread safe.</summary>
internal interface IAlarmHistory
{
    /// <summary>Changes before a moment, newest first.</summary>
    /// <param name="vat">Of this vat only; null for every vat and the daemon.</param>
    /// <param name="before">Only changes before this, UTC; null for the newest.</param>
    /// <param name="count">At most so many.</param>
    Task<IReadOnlyList<AlarmChange>> ReadAsync(VatId? vat, DateTimeOffset? before, int count, CancellationToken cancel);

    /// <summary>The figures of the last weeks, the newest first.</summary>
    /// <param name="now">The present by the vat's clock, UTC.</param>
    /// <param name="count">1 to <see cref="AlarmWeeks.Most"/>.</param>
    Task<IReadOnlyList<AlarmWeek>> WeeksAsync(DateTimeOffset now, int count, CancellationToken cancel);
}
