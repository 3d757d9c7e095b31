namespace VatWatch.Probes.Serial.Lines;

/// <summary>
/// The answer of an instrument that speaks in lines: the first line that is wanted. What comes before it (an echo of the question, a greeting, a
/// status, a line that a listening probe takes) is passed over.
/// </summary>
/// <param name="wanted">Tells whether a line is the answer.</param>
/// <param name="question">What is asked.</param>
/// <param name="number">Gets the number out of an answer that nothing but its number tells from those to other questions; null where something does.</param>
internal sealed class LineReply(LineEnding ending, Func<byte[], bool> wanted, string question = "", Func<byte[], double?>? number = null) : Reply
{
    /// <summary>Lines kept to tell what was passed over.</summary>
    private const int MostShown = 4;

    private readonly LineSplitter _splitter = new(ending, dropFirst: false);
    private readonly Queue<byte[]> _passed = [];
    private int _begun;

    public override object Question => question;

    public override ReadOnlyMemory<byte> Said => Line;

    public override double? Number => Line is null ? null : number?.Invoke(Line);

    /// <summary>The line, or null while there is none.</summary>
    public byte[]? Line { get; private set; }

    /// <summary>The lines passed over, quoted; null when there was none.</summary>
    public string? PassedOver => _passed.Count > 0 ? string.Join(", ", _passed.Select(line => $"'{LinePattern.Show(line)}'")) : null;

    /// <summary>What came instead of the answer, in words, or null when nothing came.</summary>
    public string? Instead =>
        _splitter.TooLong > 0 ? $"a line of more than {LineSplitter.Cap} bytes" :
        PassedOver is { } passed ? passed + (_passed.Count > 1 ? ", none of which matches the pattern" : ", which does not match the pattern") :
        _splitter.Unfinished.Length > _begun ? $"the start of a line, '{LinePattern.Show(_splitter.Unfinished)}'" : null;

    public override bool Take(ReadOnlySpan<byte> bytes)
    {
        _splitter.Take(bytes, Keep);
        return Line is not null;
    }

    public override Reply Another() => new LineReply(ending, wanted, question, number);

    public override void Reset(ReadOnlySpan<byte> begun = default)
    {
        Line = null;
        _passed.Clear();
        _splitter.Reset();
        _splitter.Take(begun, Keep);
        _begun = _splitter.Unfinished.Length;
    }

    private void Keep(ReadOnlySpan<byte> line)
    {
        if (Line is not null)
        {
            return;
        }

        var copy = line.ToArray();
        var begun = Math.Min(_begun, copy.Length);
        _begun = 0;
        byte[][] forms = [copy, copy[Noise(copy)..], begun > 0 && IsPrompt(copy.AsSpan(0, begun)) ? copy[begun..] : copy];
        Line = Array.Find(forms, form => form.Length > 0 && wanted(form));
        if (Line is not null)
        {
            return;
        }

        _passed.Enqueue(copy);
        if (_passed.Count > MostShown)
        {
            _passed.Dequeue();
        }
    }

    /// <summary>
    /// How many bytes before the line are what a line driver makes while it is switched on: zeros and ones, or anything that is no text where a name stands first. Before a number it could be a
    /// digit that was disturbed.
    /// </summary>
    private static int Noise(ReadOnlySpan<byte> line)
    {
        var glitches = line.IndexOfAnyExcept((byte)0, (byte)0xFF);
        var text = line.IndexOfAnyInRange((byte)'!', (byte)'~');
        return text > 0 && char.IsAsciiLetter((char)line[text]) ? text : Math.Max(0, glitches);
    }

    /// <summary>Whether a line could begin after this: what ends in a letter, a digit or what stands before digits may be the first part of one, and its end is no answer.</summary>
    private static bool IsPrompt(ReadOnlySpan<byte> begun) => !char.IsAsciiLetterOrDigit((char)begun[^1]) && begun[^1] is not ((byte)'.' or (byte)',' or (byte)'+' or (byte)'-' or (byte)'=');
}
