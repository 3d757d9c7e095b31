using VatWatch.Sessions;
using VatWatch.Store;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>A wanted stretch of time as two moments.</summary>
/// <param name="From">Start, UTC.</param>
/// <param name="To">End, UTC.</param>
internal readonly record struct ChartWindow(DateTimeOffset From, DateTimeOffset To)
{
    /// <summary>Some minutes on either side of a session, so that one sees what it came from.</summary>
    private static readonly TimeSpan AroundSession = TimeSpan.FromMinutes(10);

    /// <summary>Finds it; without any session, the last hours.</summary>
    public static ChartWindow Of(ChartRange range, StoreReader reader, VatId vat, DateTimeOffset now)
    {
        if (range is { From: { } from, To: { } to })
        {
            return new(from, to);
        }

        if (range.IsSession && SessionTable.Newest(reader, vat, 1) is [var session])
        {
            var ends = session.Ended is { } ended && ended + AroundSession < now ? ended + AroundSession : now;
            return new(session.Started.Utc - AroundSession, ends);
        }

        return new(now - TimeSpan.FromHours(range.Hours ?? ChartRange.DefaultHours), now);
    }
}
