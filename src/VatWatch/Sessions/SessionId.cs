using System.Diagnostics.CodeAnalysis;
using System.Text.RegularExpressions;

namespace VatWatch.Sessions;

/// <summary>The name of one session of a vat in addresses and files: its local date, and a number from the second of a day on, as in 2026-03-01-2.</summary>
/// <param name="Value">The name.</param>
public readonly partial record struct SessionId(string Value)
{
    /// <summary>The name of the <paramref name="number"/>th session of a day, counted from 1.</summary>
    public static SessionId Of(DateOnly day, int number)
    {
        var date = day.ToString("yyyy-MM-dd");
        return new(number == 1 ? date : $"{date}-{number}");
    }

    /// <summary>Takes a name that came from outside.</summary>
    /// <returns>False when it cannot be the name of a session.</returns>
    public static bool TryParse(string? text, [NotNullWhen(true)] out SessionId id)
    {
        var fits = text is not null && Form().IsMatch(text);
        id = fits ? new(text!) : default;
        return fits;
    }

    public override string ToString() => Value;

    [GeneratedRegex("^[0-9]{4}-[0-9]{2}-[0-9]{2}(-[1-9][0-9]{0,2})?\\z", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
