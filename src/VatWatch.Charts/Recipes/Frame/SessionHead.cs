namespace VatWatch.Charts.Recipes.Frame;

/// <summary>What a session is called above its chart: its name, the shade that was wanted, and how it came out.</summary>
internal static class SessionHead
{
    /// <summary>For example "Session 2026-03-01 · deep sky · came out good"; null for a record of a stretch of time.</summary>
    public static string? Of(VatRecord record)
    {
        if (record.Session is not { } session)
            return null;
        string?[] parts =
        [
            $"Session {session.Id}",
            session.Details.Shade,
            session.Details.Verdict is { } verdict ? $"came out {verdict.Word()}" : null,
        ];
        return string.Join(" · ", parts.Where(part => !string.IsNullOrEmpty(part)));
    }
}
