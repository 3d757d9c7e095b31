namespace VatWatch.Time;

/// <summary>The greater and the lesser of two lengths or moments, which the framework has for numbers only.</summary>
internal static class TimeMath
{
    /// <summary>The longer length, or the later of two monotonic moments.</summary>
    public static TimeSpan Max(TimeSpan one, TimeSpan other) => one > other ? one : other;

    /// <summary>The shorter length, or the earlier of two monotonic moments.</summary>
    public static TimeSpan Min(TimeSpan one, TimeSpan other) => one < other ? one : other;

    /// <summary>The later moment.</summary>
    public static DateTimeOffset Max(DateTimeOffset one, DateTimeOffset other) => one > other ? one : other;

    /// <summary>The earlier moment.</summary>
    public static DateTimeOffset Min(DateTimeOffset one, DateTimeOffset other) => one < other ? one : other;
}
