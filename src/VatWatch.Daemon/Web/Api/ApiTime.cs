using System.Globalization;

namespace VatWatch.Daemon.Web.Api;

/// <summary>Moments in addresses.</summary>
internal static class ApiTime
{
    /// <summary>An ISO 8601 time, UTC where it names no zone; null when it is none.</summary>
    public static DateTimeOffset? Of(string? text) =>
        DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment) ? moment.ToUniversalTime() : null;
}
