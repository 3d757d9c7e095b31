using System.Globalization;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>Which stretch of time somebody wants drawn: the last hours, the open or newest session, or from one moment to another. Immutable.</summary>
public sealed record ChartRange
{
    /// <summary>Hours drawn when nothing else is asked for: a night.</summary>
    public const int DefaultHours = 8;

    /// <summary>Longest stretch back from now, hours.</summary>
    public const int MostHours = 7 * 24;

    /// <summary>Longest stretch between two moments: a year and a day.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(366);

    /// <summary>Shortest stretch; below it there is nothing between two readings.</summary>
    public static readonly TimeSpan Shortest = TimeSpan.FromSeconds(10);

    /// <summary>The last hours; null for another stretch.</summary>
    public int? Hours { get; private init; }

    /// <summary>Whether it is the open session, or the newest when none is open.</summary>
    public bool IsSession { get; private init; }

    /// <summary>From here, UTC, up to <see cref="To"/>; null for another stretch.</summary>
    public DateTimeOffset? From { get; private init; }

    /// <summary>Up to here, UTC.</summary>
    public DateTimeOffset? To { get; private init; }

    /// <summary>The night before now.</summary>
    public static ChartRange Default { get; } = Last(DefaultHours);

    /// <summary>The open or newest session.</summary>
    public static ChartRange Session { get; } = new() { IsSession = true };

    public static ChartRange Last(int hours) => new() { Hours = Math.Clamp(hours, 1, MostHours) };

    /// <summary>Reads <c>hours</c>, <c>range=session</c>, or <c>from</c> and <c>to</c>; without any, the default.</summary>
    /// <param name="query">Of the address.</param>
    /// <param name="zone">Zone of moments that name none, as a date field of a browser gives them.</param>
    /// <param name="range">The stretch; the default when what was asked for cannot be read.</param>
    /// <returns>False when something was asked for that cannot be read.</returns>
    public static bool TryRead(IQueryCollection query, TimeZoneInfo zone, out ChartRange range)
    {
        range = Default;
        if (query.ContainsKey("from") || query.ContainsKey("to"))
        {
            return TryMoment(query["from"], zone, out var from) && TryMoment(query["to"], zone, out var to) && TryBetween(from, to, ref range);
        }

        if (query.ContainsKey("range"))
        {
            range = Session;
            return query["range"] == "session";
        }

        if (!query.ContainsKey("hours"))
        {
            return true;
        }

        if (!int.TryParse(query["hours"], NumberStyles.None, CultureInfo.InvariantCulture, out var hours) || hours is < 1 or > MostHours)
        {
            return false;
        }

        range = Last(hours);
        return true;
    }

    private static bool TryBetween(DateTimeOffset from, DateTimeOffset to, ref ChartRange range)
    {
        if (to - from < Shortest || to - from > Longest)
        {
            return false;
        }

        range = new() { From = from, To = to };
        return true;
    }

    private static bool TryMoment(string? text, TimeZoneInfo zone, out DateTimeOffset moment)
    {
        moment = default;
        if (!DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var read) || read.Year is < 1971 or > 9000)
        {
            return false;
        }

        // An hour that the clocks skip in spring is taken as the hour after.
        moment = read.Kind == DateTimeKind.Unspecified
            ? new DateTimeOffset(read, zone.GetUtcOffset(read)).ToUniversalTime()
            : new DateTimeOffset(read.ToUniversalTime());
        return true;
    }
}
