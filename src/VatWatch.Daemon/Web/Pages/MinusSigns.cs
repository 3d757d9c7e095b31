using System.Text.RegularExpressions;

namespace VatWatch.Daemon.Web.Pages;

/// <summary>Numbers below zero as print has them: the hyphen of programs and topics is hard to see on a phone at arm's length.</summary>
internal static partial class MinusSigns
{
    /// <summary>The text with a minus sign (U+2212) for each hyphen that stands before a number.</summary>
    public static string WithMinusSigns(this string text) => Hyphen().Replace(text, "−");

    [GeneratedRegex(@"(?<![\w\-.:])-(?=\d)")]
    private static partial Regex Hyphen();
}
