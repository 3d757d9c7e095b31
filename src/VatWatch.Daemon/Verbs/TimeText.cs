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

    /// <summary>Reads both ends of a span, <c>--from</c> and <c>--to</c>; false, and said so with the one that cannot be read, when either is no moment.</summary>
    public static bool TryReadSpan(string? fromText, string? toText, TimeZoneInfo zone, VerbConsole console, out DateTimeOffset? from, out DateTimeOffset? to)
    {
        var (isFrom, isTo) = (TryRead(fromText, zone, out from), TryRead(toText, zone, out to));
        if (!isFrom || !isTo)
        {
            console.Fail(ExitCode.WrongUsage, $"{(isFrom ? $"--to is '{toText}'" : $"--from is '{fromText}'")}; wanted {Wanted}.");
        }

        return isFrom && isTo;
    }
}
