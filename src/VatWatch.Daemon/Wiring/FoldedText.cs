namespace VatWatch.Daemon.Wiring;

/// <summary>Breaks what people read on a terminal between words, so that the terminal does not break it within them.</summary>
internal static class FoldedText
{
    /// <summary>Width where nobody knows it.</summary>
    public const int UsualWidth = 80;

    private const int LeastWidth = 30;

    /// <summary>Width of the terminal, characters: <c>COLUMNS</c>, else what the terminal says, else <see cref="UsualWidth"/>.</summary>
    public static int Width => int.TryParse(Environment.GetEnvironmentVariable("COLUMNS"), out var told) && told > 0 ? Math.Max(LeastWidth, told)
        : !Console.IsOutputRedirected && Console.WindowWidth is > 0 and var shown ? Math.Max(LeastWidth, shown)
        : UsualWidth;

    /// <summary>
    /// The lines that a line is broken into. What is longer than a line and has no blank, such as an address, stays whole.
    /// </summary>
    /// <param name="line">One line, without its end.</param>
    /// <param name="width">Characters to a line.</param>
    /// <param name="hanging">Column at which further lines begin; null for that of a list's text or of the line's second column, else of its first word.</param>
    public static IEnumerable<string> Fold(string line, int width, int? hanging = null)
    {
        var indent = new string(' ', Math.Min(hanging ?? Hanging(line, width), width / 2));
        var rest = line;
        while (rest.Length > width)
        {
            var start = rest.Length - rest.AsSpan().TrimStart(' ').Length;
            var cut = rest.LastIndexOf(' ', width);
            if (cut <= start)
            {
                cut = rest.IndexOf(' ', Math.Min(Math.Max(width, start), rest.Length - 1));
            }

            if (cut < 0)
            {
                break;
            }

            yield return rest[..cut].TrimEnd(' ');
            rest = indent + rest[cut..].TrimStart(' ');
        }

        yield return rest;
    }

    // "  --data DIR   Folder of the store": what follows two blanks is a column of its own, if it leaves room.
    private static int Hanging(string line, int width)
    {
        var first = line.Length - line.AsSpan().TrimStart(' ').Length;
        if (line.AsSpan(first).StartsWith("- "))
        {
            return first + 2;
        }

        var gap = line.IndexOf("  ", first, StringComparison.Ordinal);
        var second = gap < 0 ? line.Length : gap + (line.Length - gap) - line.AsSpan(gap).TrimStart(' ').Length;
        return second < line.Length && second <= width / 2 ? second : first;
    }
}
