using System.Globalization;
using VatWatch.Daemon.Verbs.Terminal;

namespace VatWatch.Daemon.Verbs;

/// <summary>Moments as people type them.</summary>
internal static class TimeText
{
    /// <summary>What is understood, for a sentence that refuses something else.</summary>
    public const string Wanted = "a time such as 2026-03-01T20:00Z or '2026-03-01 20:00'";

    /// <summary>Reads a moment; without an offset it is a time of <paramref name="zone"/>. Nothing typed is null and right.</summary>
    public static bool TryRead(string? text, TimeZoneInfo zone, out DateTimeOffset? time)
    {
        time = null;
        if (text is null)
        {
            return true;
        }

        if (!DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var read))
        {
            return false;
        }

        // A moment with an offset comes as one of the machine's zone.
        time = read.Kind == DateTimeKind.Unspecified ? new DateTimeOffset(read, zone.GetUtcOffset(read)).ToUniversalTime() : new DateTimeOffset(read).ToUniversalTime();
        return true;
    }

    /// <summary>Reads both ends of a span, <c>--from</c> and <c>--to</c>.</summary>
    /// <exception cref="VerbEndedException">One of them is no moment.</exception>
    public static (DateTimeOffset? From, DateTimeOffset? To) ReadSpan(string? from, string? to, TimeZoneInfo zone) =>
        !TryRead(from, zone, out var start) ? throw new VerbEndedException(ExitCode.WrongUsage, $"--from is '{from}'; wanted {Wanted}.")
        : !TryRead(to, zone, out var end) ? throw new VerbEndedException(ExitCode.WrongUsage, $"--to is '{to}'; wanted {Wanted}.")
        : (start, end);
}
