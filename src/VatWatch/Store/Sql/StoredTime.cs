namespace VatWatch.Store.Sql;

/// <summary>Moments outside the table of readings: units of 100 ns since 1970-01-01T00:00Z, so that nothing is rounded.</summary>
internal static class StoredTime
{
    /// <summary>The number to store.</summary>
    public static long Of(DateTimeOffset moment) => moment.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks;

    /// <summary>The moment stored; its offset is zero.</summary>
    public static DateTimeOffset Utc(long stored) => DateTimeOffset.UnixEpoch.AddTicks(stored);
}
