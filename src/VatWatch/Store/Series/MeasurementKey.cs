namespace VatWatch.Store.Series;

/// <summary>
/// The row id of a reading: microseconds since 2020-01-01T00:00Z times 64, plus the order of arrival among readings of the same microsecond.
/// </summary>
/// <remarks>
/// The epoch keeps today's ids within 56 bits, which SQLite writes in 8 bytes instead of 9 until 2055. The range is the years 1 to 6586;
/// a label beyond it (a broken clock) is filed at its end.
/// </remarks>
internal static class MeasurementKey
{
    /// <summary>Readings that fit into one microsecond; more move on to the next.</summary>
    public const int PerMicrosecond = 64;

    /// <summary>Microseconds since the epoch of the key, rounded down.</summary>
    public static long Micros(DateTimeOffset utc) =>
        Math.Min(FloorDivide(utc.UtcTicks - Epoch.UtcTicks, TimeSpan.TicksPerMicrosecond), LargestMicros);

    /// <summary>Id of the first reading at or after this microsecond.</summary>
    public static long First(long micros) => micros * PerMicrosecond;

    /// <summary>Id of the first reading at or after <paramref name="utc"/>, rounded up to the microsecond.</summary>
    public static long AtOrAfter(DateTimeOffset utc)
    {
        var micros = Micros(utc);
        return First(micros < LargestMicros && Epoch.UtcTicks + micros * TimeSpan.TicksPerMicrosecond < utc.UtcTicks ? micros + 1 : micros);
    }

    /// <summary>The microsecond of an id.</summary>
    public static long MicrosOf(long key) => FloorDivide(key, PerMicrosecond);

    /// <summary>The label of an id.</summary>
    public static DateTimeOffset Utc(long key) => UtcOfMicros(MicrosOf(key));

    /// <summary>The moment of a number of microseconds since the epoch of the key.</summary>
    public static DateTimeOffset UtcOfMicros(long micros) => Epoch.AddTicks(micros * TimeSpan.TicksPerMicrosecond);

    /// <summary>Whole microseconds of a length of time, rounded down.</summary>
    public static long Micros(TimeSpan time) => FloorDivide(time.Ticks, TimeSpan.TicksPerMicrosecond);

    /// <summary>Division that rounds down for negative numbers too.</summary>
    public static long FloorDivide(long number, long by) => number / by - (number % by < 0 ? 1 : 0);

    private static readonly DateTimeOffset Epoch = new(2020, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>The last microsecond that can be filed.</summary>
    public const long LargestMicros = (1L << 57) - 1;

    /// <summary>The first microsecond that a moment can name, 0001-01-01.</summary>
    public static long SmallestMicros => FloorDivide(DateTimeOffset.MinValue.UtcTicks - Epoch.UtcTicks, TimeSpan.TicksPerMicrosecond);
}
