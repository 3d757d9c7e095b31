using System.Text.RegularExpressions;

namespace VatWatch.Probes.Serial.Lines;

/// <summary>
/// A regular expression for the lines of an instrument, so matched that no line can hold up the port: without backtracking where the expression allows it, else
/// with a limit. The automaton is made for the first line, since many a start looks at no line. Thread safe.
/// </summary>
internal sealed class LineForm
{
    /// <summary>Longest expression, characters: twice the longest line. The automaton of one that is much longer takes many seconds to make.</summary>
    private const int Longest = 1000;

    private const RegexOptions Common = RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;

    /// <summary>Longest that one which may backtrack can hold up the port.</summary>
    private static readonly TimeSpan MatchLimit = TimeSpan.FromMilliseconds(50);

    /// <summary>The same for one that does not backtrack: it takes so long only when the machine has no time for it.</summary>
    private static readonly TimeSpan LinearLimit = TimeSpan.FromSeconds(1);

    private readonly Regex _read;
    private readonly Lazy<Regex> _matcher;

    private LineForm(Regex read)
    {
        _read = read;
        _matcher = new(Matcher);
    }

    /// <summary>One that every line has, as the value of <paramref name="group"/>.</summary>
    public static LineForm Any(string group) => new(new Regex($"(?<{group}>.*)", Common, MatchLimit));

    /// <summary>Reads an expression; null when it is none, or too long.</summary>
    public static LineForm? TryRead(string text)
    {
        try
        {
            return text.Length <= Longest ? new(new Regex(text, Common, MatchLimit)) : null;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }

    /// <summary>Whether it has a group of this name.</summary>
    public bool Has(string group) => _read.GetGroupNames().Contains(group);

    /// <summary>Where the line has it; one that takes too long to tell has it not.</summary>
    public Match Match(ReadOnlySpan<byte> line)
    {
        try
        {
            return _matcher.Value.Match(Text(line));
        }
        catch (RegexMatchTimeoutException)
        {
            return System.Text.RegularExpressions.Match.Empty;
        }
    }

    /// <summary>The expression as it is written.</summary>
    public override string ToString() => _read.ToString();

    private Regex Matcher()
    {
        try
        {
            return new Regex(_read.ToString(), Common | RegexOptions.NonBacktracking, LinearLimit);
        }
        catch (NotSupportedException)
        {
            return _read;
        }
    }

    /// <summary>One character for each byte, so that places agree; what is not ASCII cannot be mistaken for anything.</summary>
    private static string Text(ReadOnlySpan<byte> line) => string.Create(line.Length, line, static (text, bytes) =>
    {
        for (var at = 0; at < bytes.Length; at++)
        {
            text[at] = bytes[at] < 0x80 ? (char)bytes[at] : '\uFFFD';
        }
    });
}
