using System.Globalization;
using System.Text;

namespace VatWatch.Vats;

/// <summary>Words that strangers type, cleaned before they are kept, logged or shown; and the first letter of a sentence.</summary>
public static class FreeText
{
    /// <summary>How much of a stranger's word is repeated in a log line or an answer.</summary>
    private const int LongestShown = 40;

    /// <summary>How much of a sentence of a server's own is repeated.</summary>
    private const int LongestQuote = 200;

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

    /// <summary>The beginning of a word, cleaned, for a sentence that says what was seen.</summary>
    public static string Shown(string? text) => Beginning(Clean(text), LongestShown);

    /// <summary>The beginning of what a server or a library said, cleaned and without its full stop, for a sentence of ours, the log or an alarm.</summary>
    public static string Quoted(string? text) => Beginning(Clean(text).TrimEnd('.'), LongestQuote);

    /// <summary>With a capital first, as a sentence begins; "pH" stays as it is.</summary>
    public static string Capitalized(this string text) =>
        text.Length == 0 || text.StartsWith("pH", StringComparison.Ordinal) ? text : $"{char.ToUpperInvariant(text[0])}{text[1..]}";

    /// <summary>With a small letter first, to go on inside a sentence; "ORP" stays as it is.</summary>
    public static string Uncapitalized(this string text) =>
        text.Length == 0 || (text.Length > 1 && char.IsUpper(text[1])) ? text : $"{char.ToLowerInvariant(text[0])}{text[1..]}";

    /// <summary>No longer than <paramref name="most"/>, and never half a character.</summary>
    private static string Beginning(string clean, int most) =>
        clean.Length <= most ? clean : $"{clean[..(char.IsHighSurrogate(clean[most - 1]) ? most - 1 : most)]}...";
}
