using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Vats.Figures;

/// <summary>A forecast as a range of waiting time and of the clock on the wall.</summary>
internal static class ForecastText
{
    /// <summary>For example "in 1 h 05 min to 1 h 40 min (05:40 to 06:15)"; counted from now, not from when it was worked out.</summary>
    public static string Range(Forecast forecast, Stamp workedOut, LocalClock clock)
    {
        var passed = clock.Now.Since(workedOut);
        var early = Left(forecast.Early, passed);
        if (forecast.Late is not { } lateFromThen)
        {
            return early == TimeSpan.Zero ? "any moment now, or never" : $"in {DisplayUnits.Duration(early)} at the earliest ({At(early, clock)}), or never";
        }

        var late = Left(lateFromThen, passed);
        return late < TimeSpan.FromMinutes(1)
            ? "any moment now"
            : $"in {Span(early, late)} ({At(early, clock)} to {At(late, clock)})";
    }

    /// <summary>For example "05:40 to 06:15", or "not before 05:40".</summary>
    public static string Clocks(Forecast forecast, Stamp workedOut, LocalClock clock)
    {
        var passed = clock.Now.Since(workedOut);
        var early = At(Left(forecast.Early, passed), clock);
        return forecast.Late is not { } late ? $"not before {early}" : At(Left(late, passed), clock) is var end && end == early ? $"at {early}" : $"{early} to {end}";
    }

    private static string Span(TimeSpan early, TimeSpan late) =>
        early < TimeSpan.FromMinutes(1) ? $"0 to {DisplayUnits.Duration(late)}" : $"{DisplayUnits.Duration(early)} to {DisplayUnits.Duration(late)}";

    private static TimeSpan Left(TimeSpan fromThen, TimeSpan passed) => fromThen > passed ? fromThen - passed : TimeSpan.Zero;

    private static string At(TimeSpan ahead, LocalClock clock) => clock.At(clock.Now.Utc + ahead);
}
