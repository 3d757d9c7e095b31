using VatWatch.Alarms;
using VatWatch.Daemon.Web.Pages;

namespace VatWatch.Daemon.Web.Alarms;

/// <summary>How an alarm was set aside, in words for people.</summary>
internal static class AsideText
{
    /// <summary>A sentence with a space before it; empty for an alarm that nobody set aside.</summary>
    public static string Of(AlarmStatus status, LocalClock clock)
    {
        if (status.SetAside is not { } aside)
        {
            return "";
        }

        var until = aside.Until is { } end ? $" until {clock.At(end)}" : "";
        return $" Set aside by {aside.By ?? "VatWatch"} at {clock.At(aside.At)}{until}: {aside.Because.TrimEnd('.')}.";
    }
}
