namespace VatWatch.Alarms;

/// <summary>When the vat should be warm each day.</summary>
/// <param name="Time">Local time of day.</param>
/// <param name="For">How long after it a cold vat still matters; 15 min to 16 h.</param>
/// <param name="Zone">Whose local time.</param>
public sealed record ReadyBy(TimeOnly Time, TimeSpan For, TimeZoneInfo Zone)
{
    /// <summary>Whether <paramref name="utc"/> lies in the hours in which the vat should be warm.</summary>
    public bool Covers(DateTimeOffset utc)
    {
        var local = TimeZoneInfo.ConvertTime(utc, Zone).TimeOfDay;
        var since = local - Time.ToTimeSpan();
        return (since < TimeSpan.Zero ? since + TimeSpan.FromDays(1) : since) < For;
    }
}
