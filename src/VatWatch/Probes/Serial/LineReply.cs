namespace VatWatch.Probes.Serial;

/// <summary>The answer of an instrument that speaks in lines: the first line that nobody else on the port listens for.</summary>
/// <param name="ending">What ends a line.</param>
/// <param name="claimed">Tells whether a line is one that a listening probe takes.</param>
internal sealed class LineReply(LineEnding ending, Func<byte[], bool> claimed) : Reply
{
    private readonly LineSplitter _splitter = new(ending, dropFirst: false);

    /// <summary>The line, or null while there is none.</summary>
    public byte[]? Line { get; private set; }

    /// <summary>What came instead of a whole line, in words, or null when nothing came.</summary>
    public string? Instead =>
        _splitter.TooLong > 0 ? $"a line of more than {LineSplitter.Cap} bytes" :
        _splitter.Unfinished.Length > 0 ? $"the start of a line, '{LinePattern.Show(_splitter.Unfinished)}'" : null;

    public override bool Take(ReadOnlySpan<byte> bytes)
    {
        _splitter.Take(bytes, Keep);
        return Line is not null;
    }

    public override Reply Another() => new LineReply(ending, claimed);

    public override void Reset()
    {
        Line = null;
        _splitter.Reset();
    }

    private void Keep(ReadOnlySpan<byte> line)
    {
        if (Line is null)
        {
            var copy = line.ToArray();
            Line = claimed(copy) ? null : copy;
        }
    }
}
