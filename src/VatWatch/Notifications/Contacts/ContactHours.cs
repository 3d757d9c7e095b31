namespace VatWatch.Notifications.Contacts;

/// <summary>The hours of the day in which a contact may be disturbed, by the clock on the wall of a place; they may reach over midnight.</summary>
/// <param name="From">When they begin.</param>
/// <param name="To">When they end; not the same as <paramref name="From"/>.</param>
/// <param name="Zone">Whose wall.</param>
public sealed record ContactHours(TimeOnly From, TimeOnly To, TimeZoneInfo Zone)
{
    /// <summary>The first moment from <paramref name="utc"/> on at which the contact may be disturbed: itself within the hours.</summary>
    public DateTimeOffset NextOpen(DateTimeOffset utc)
    {
        var local = TimeZoneInfo.ConvertTime(utc, Zone).DateTime;
        if (TimeOnly.FromDateTime(local).IsBetween(From, To))
        {
            return utc;
        }

        var opening = local.Date + From.ToTimeSpan();
        opening = opening > local ? opening : opening.AddDays(1);

        // An hour that the change to summer time leaves out is over when it would have begun.
        opening = Zone.IsInvalidTime(opening) ? opening.AddHours(1) : opening;
        return new DateTimeOffset(opening, Zone.GetUtcOffset(opening)).ToUniversalTime();
    }
}
