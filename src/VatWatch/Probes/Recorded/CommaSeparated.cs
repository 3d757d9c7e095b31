using System.Text;

namespace VatWatch.Probes.Recorded;

/// <summary>
/// Splits comma-separated values into fields (RFC 4180), with CR LF, LF or CR at the end of a line. Never throws on what it reads. A stray
/// quotation mark, or a line longer than <see cref="LongestLine"/>, spoils that line only.
/// </summary>
internal sealed class CommaSeparated(TextReader reader)
{
    /// <summary>Characters in one line. A reading takes about 100; a quoted field that is never closed would swallow the rest of the file.</summary>
    public const int LongestLine = 10_000;

    /// <summary>Characters read at a time, less than <see cref="LongestLine"/>.</summary>
    private const int BufferLength = 4096;

    private readonly char[] _buffer = new char[BufferLength];
    private int _at;
    private int _end;
    private int _line = 1;

    /// <summary>Reads one line; false at the end.</summary>
    /// <param name="fields">Its fields, unquoted.</param>
    /// <param name="line">Number of the line it began on, from 1.</param>
    /// <param name="fault">Why it cannot be trusted; null when it can.</param>
    public bool TryRead(out List<string> fields, out int line, out string? fault)
    {
        fields = [];
        line = _line;
        fault = null;
        if (Peek() < 0)
            return false;
        if (TryReadPlain(fields))
            return true;
        var field = new StringBuilder();
        var length = 0;
        var (quoted, wasQuoted) = (false, false);
        for (int next; (next = Read()) >= 0;)
        {
            var character = (char)next;
            if (++length > LongestLine)
            {
                fault = $"more than {LongestLine} characters; wanted a short line (is a quotation mark left open?)";
                SkipLine(character);
                return true;
            }

            if (quoted)
            {
                if (character != '"')
                    field.Append(Counted(character));
                else if (Peek() == '"')
                    field.Append((char)Read());
                else
                    quoted = false;
            }
            else if (character is '\r' or '\n')
            {
                EndLine(character);
                fields.Add(field.ToString());
                return true;
            }
            else if (character == ',')
            {
                fields.Add(field.ToString());
                field.Clear();
                wasQuoted = false;
            }
            else if (character == '"' && field.Length == 0 && !wasQuoted)
                (quoted, wasQuoted) = (true, true);
            else
            {
                if (character == '"' || wasQuoted)
                    fault ??= "a quotation mark stands inside a field; wanted it doubled, in a field that is quoted as a whole";
                field.Append(character);
            }
        }

        if (quoted)
            fault = "a quotation mark is left open at the end of the file";
        fields.Add(field.ToString());
        return true;
    }

    /// <summary>Reads a line that is whole in the buffer and has no quotation mark, as nearly every one; false when it is another.</summary>
    private bool TryReadPlain(List<string> fields)
    {
        ReadOnlySpan<char> ahead = _buffer.AsSpan(_at, _end - _at);
        var end = ahead.IndexOfAny('\n', '\r', '"');
        if (end < 0 || ahead[end] == '"')
            return false;
        var rest = ahead[..end];
        for (int comma; (comma = rest.IndexOf(',')) >= 0; rest = rest[(comma + 1)..])
            fields.Add(rest[..comma].ToString());
        fields.Add(rest.ToString());
        _at += end + 1;
        EndLine(ahead[end]);
        return true;
    }

    private int Peek()
    {
        if (_at == _end)
            (_at, _end) = (0, reader.Read(_buffer, 0, BufferLength));
        return _at < _end ? _buffer[_at] : -1;
    }

    private int Read()
    {
        var next = Peek();
        _at += next < 0 ? 0 : 1;
        return next;
    }

    private char Counted(char character)
    {
        if (character == '\n')
            _line++;
        return character;
    }

    private void EndLine(char character)
    {
        if (character == '\r' && Peek() == '\n')
            Read();
        _line++;
    }

    private void SkipLine(char character)
    {
        for (int next = character; next >= 0; next = Read())
        {
            if (next is '\r' or '\n')
            {
                EndLine((char)next);
                return;
            }
        }
    }
}
