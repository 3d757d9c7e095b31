namespace VatWatch.Charts.Recipes.Panels;

/// <summary>One labelled moment of a time axis.</summary>
/// <param name="Seconds">From the start of the window.</param>
/// <param name="Label">The clock; on the first mark and at midnight, the date on a second line.</param>
internal readonly record struct TimeTick(double Seconds, string Label);

/// <summary>Chooses the labelled moments of a time axis: round times of the wall clock in the window's zone, across changes of the clocks too.</summary>
internal static class TimeTicks
{
    private static readonly TimeSpan[] Steps =
    [
        .. new[] { 10, 30 }.Select(seconds => TimeSpan.FromSeconds(seconds)),
        .. new[] { 1, 2, 5, 10, 15, 30 }.Select(minutes => TimeSpan.FromMinutes(minutes)),
        .. new[] { 1, 2, 3, 4, 6, 12 }.Select(hours => TimeSpan.FromHours(hours)),
        .. new[] { 1, 2, 7, 14, 28, 91, 182, 364 }.Select(days => TimeSpan.FromDays(days)),
    ];

    /// <summary>The marks, at the closest step of which at most <paramref name="most"/> fit the window.</summary>
    public static IReadOnlyList<TimeTick> Of(TimeWindow window, int most)
    {
        var step = Array.Find(Steps, candidate => window.Seconds / candidate.TotalSeconds <= most);
        if (step == TimeSpan.Zero)
            step = Steps[^1];
        if (window.Zero is { } zero)
            return Counted(window, zero, step);
        var ticks = new List<TimeTick>();
        // Zones are whole minutes from UTC, and whole quarters of an hour wherever a step of hours matters.
        var grain = step < TimeSpan.FromMinutes(1) ? step : TimeSpan.FromMinutes(step < TimeSpan.FromHours(1) ? 1 : 15);
        var first = window.From.UtcTicks + (grain.Ticks - window.From.UtcTicks % grain.Ticks) % grain.Ticks;
        for (var moment = new DateTimeOffset(first, TimeSpan.Zero); moment <= window.To; moment += grain)
        {
            var local = window.Local(moment).DateTime;
            if (IsRound(local, step))
                ticks.Add(new TimeTick(window.SecondsAt(moment), Label(local, step, ticks.Count == 0)));
        }

        return ticks;
    }

    // Marks before and after a moment, as "−2:00", "0" and "1:30" hours.
    private static List<TimeTick> Counted(TimeWindow window, DateTimeOffset zero, TimeSpan step)
    {
        var ticks = new List<TimeTick>();
        for (var n = (long)Math.Ceiling((window.From - zero) / step); zero + n * step <= window.To; n++)
        {
            var time = n * step;
            var clock = $"{(int)time.Duration().TotalHours}:{time.Duration().Minutes:00}";
            ticks.Add(new TimeTick(window.SecondsAt(zero + time), n == 0 ? "0" : n < 0 ? $"−{clock}" : clock));
        }

        return ticks;
    }

    private static bool IsRound(DateTime local, TimeSpan step) => step < TimeSpan.FromDays(1)
        ? local.TimeOfDay.Ticks % step.Ticks == 0
        : local.TimeOfDay == TimeSpan.Zero && local.Ticks / TimeSpan.TicksPerDay % step.Days == 0;

    private static string Label(DateTime local, TimeSpan step, bool isFirst)
    {
        var date = local.ToString("d MMM");
        if (step >= TimeSpan.FromDays(1))
            return date;
        var clock = local.ToString(step < TimeSpan.FromMinutes(1) ? "HH:mm:ss" : "HH:mm");
        return isFirst || local.TimeOfDay == TimeSpan.Zero ? $"{clock}\n{date}" : clock;
    }
}
