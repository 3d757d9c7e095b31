using System.Globalization;
using System.Text;

namespace VatWatch.Alarms;

/// <summary>Words that strangers type: cleaned before they are kept, logged or shown.</summary>
public static class FreeText
{
    /// <summary>How much of a stranger's word is repeated in a log line or an answer.</summary>
    private const int LongestShown = 40;

    /// <summary>
    /// Takes out what has no shape of its own: control characters and formatting characters such as those
    /// that turn the direction of writing and could make a log line read as another. Tabs, line ends and runs of spaces become one space. Empty for null.
    /// </summary>
    public static string Clean(string? text)
    {
        var clean = new StringBuilder(text?.Length ?? 0);
        foreach (var rune in (text ?? "").EnumerateRunes())
        {
            if (Rune.IsWhiteSpace(rune))
            {
                // A note of several lines becomes one line, with its words apart.
                clean.Append(clean.Length > 0 && clean[^1] != ' ' ? " " : "");
            }
            else if (Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.Surrogate
                or UnicodeCategory.PrivateUse or UnicodeCategory.OtherNotAssigned))
            {
                clean.Append(rune.ToString());
            }
        }

        return clean.ToString().Trim();
    }

    /// <summary>The beginning of it, cleaned, for a sentence that says what was seen.</summary>
    public static string Shown(string? text)
    {
        var clean = Clean(text);
        return clean.Length > LongestShown ? $"{clean[..LongestShown]}..." : clean;
    }
}
