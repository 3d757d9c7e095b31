namespace VatWatch.Probes.Serial.Lines;

/// <summary>
/// Cuts a stream of bytes into lines without their ending. Blank lines are left out; a line longer than <see cref="Cap"/> bytes is dropped
/// whole and counted. Not thread safe.
/// </summary>
/// <param name="dropFirst">True to drop everything up to the first ending: a stream that is joined in the middle of a line.</param>
internal sealed class LineSplitter(LineEnding ending, bool dropFirst)
{
    /// <summary>Longest line that is kept, bytes. Readings of instruments are below 100 (common practice, no source).</summary>
    public const int Cap = 512;

    private readonly byte[] _line = new byte[Cap];
    private readonly bool _dropFirst = dropFirst;
    private bool _dropping = dropFirst;
    private byte _last;
    private int _length;

    /// <summary>Receives one line; the span is valid during the call only.</summary>
    public delegate void LineTaker(ReadOnlySpan<byte> line);

    /// <summary>Lines dropped because they were longer than <see cref="Cap"/>.</summary>
    public long TooLong { get; private set; }

    /// <summary>Bytes of the line not yet ended, for telling what came instead of a line.</summary>
    public ReadOnlySpan<byte> Unfinished => _line.AsSpan(0, _length);

    /// <summary>Forgets what has come so far.</summary>
    public void Reset()
    {
        _length = 0;
        _last = 0;
        _dropping = _dropFirst;
    }

    /// <summary>Takes bytes and hands on every line they complete.</summary>
    public void Take(ReadOnlySpan<byte> bytes, LineTaker take)
    {
        for (var at = End(bytes); at >= 0; at = End(bytes))
        {
            Keep(bytes[..at]);
            if (ending == LineEnding.CrLf && _last != (byte)'\r')
            {
                Keep(bytes.Slice(at, 1));
            }
            else
            {
                Finish(take);
            }

            bytes = bytes[(at + 1)..];
        }

        Keep(bytes);
    }

    private int End(ReadOnlySpan<byte> bytes) => ending switch
    {
        LineEnding.Any => bytes.IndexOfAny((byte)'\r', (byte)'\n'),
        LineEnding.Cr => bytes.IndexOf((byte)'\r'),
        _ => bytes.IndexOf((byte)'\n'),
    };

    private void Keep(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length == 0)
        {
            return;
        }

        _last = bytes[^1];
        if (bytes.Length <= Cap - _length)
        {
            bytes.CopyTo(_line.AsSpan(_length));
            _length += bytes.Length;
            return;
        }

        _length = Cap;
        if (!_dropping)
        {
            _dropping = true;
            TooLong++;
        }
    }

    private void Finish(LineTaker take)
    {
        var line = _line.AsSpan(0, _length);
        if (ending == LineEnding.Cr)
        {
            line = line.Length > 0 && line[0] == '\n' ? line[1..] : line;
        }
        else if (line.Length > 0 && line[^1] == '\r')
        {
            line = line[..^1];
        }

        var keep = !_dropping && line.Length > 0;
        _length = 0;
        _last = 0;
        _dropping = false;
        if (keep)
        {
            take(line);
        }
    }
}

/// <summary>What ends a line of an instrument.</summary>
public enum LineEnding
{
    /// <summary>CR, LF or both in either order, whichever comes.</summary>
    Any,

    /// <summary>LF; a CR before it is dropped.</summary>
    Lf,

    /// <summary>CR; a LF that follows is dropped.</summary>
    Cr,

    /// <summary>CR and LF together; either alone belongs to the line.</summary>
    CrLf,
}
