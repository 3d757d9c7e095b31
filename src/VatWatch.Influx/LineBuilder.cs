using System.Text;

namespace VatWatch.Influx;

/// <summary>
/// Builds one point in the line protocol of InfluxDB v2 (docs.influxdata.com, "Line protocol"): measurement, tags, fields, nanoseconds. Used
/// again and again; not thread safe.
/// </summary>
internal sealed class LineBuilder
{
    private readonly StringBuilder _line = new(512);
    private bool _hasField;

    public LineBuilder Begin(string measurement)
    {
        _line.Clear().Append(measurement);
        _hasField = false;
        return this;
    }

    /// <summary>A tag; all tags stand before the first field. An empty value is left out, as the protocol wants.</summary>
    public LineBuilder Tag(string name, string value)
    {
        if (value.Length == 0)
        {
            return this;
        }

        _line.Append(',').Append(name).Append('=');
        foreach (var letter in value)
        {
            if (letter is ',' or '=' or ' ')
            {
                _line.Append('\\');
            }

            // A backslash before a separator would escape it, and a line break ends the point; neither is in a name of ours.
            _line.Append(letter is '\\' or '\n' or '\r' ? '_' : letter);
        }

        return this;
    }

    /// <summary>
    /// A number; nothing when there is none. The protocol has no NaN and no infinity: these are kept as words in a field of the same name with
    /// <c>Text</c> behind it.
    /// </summary>
    public LineBuilder Number(string name, double? value)
    {
        if (value is not { } number)
        {
            return this;
        }

        if (!double.IsFinite(number))
        {
            return Text($"{name}Text", number.ToString());
        }

        Field(name).Append($"{number:R}");
        return this;
    }

    /// <summary>A whole number; nothing when there is none.</summary>
    public LineBuilder Whole(string name, long? value)
    {
        if (value is { } number)
        {
            Field(name).Append($"{number}i");
        }

        return this;
    }

    /// <summary>True or false.</summary>
    public LineBuilder Flag(string name, bool value)
    {
        Field(name).Append(value ? "true" : "false");
        return this;
    }

    /// <summary>Words; nothing when there are none. A line break becomes a space.</summary>
    public LineBuilder Text(string name, string? value)
    {
        if (value is null)
        {
            return this;
        }

        Field(name).Append('"');
        foreach (var letter in value)
        {
            if (letter is '"' or '\\')
            {
                _line.Append('\\');
            }

            _line.Append(letter is '\n' or '\r' ? ' ' : letter);
        }

        _line.Append('"');
        return this;
    }

    /// <summary>The finished line. The server refuses a moment outside what 64 bits of nanoseconds can say (1677 to 2262).</summary>
    public string End(Int128 nanoseconds) => _line.Append(' ').Append($"{nanoseconds}").ToString();

    private StringBuilder Field(string name)
    {
        _line.Append(_hasField ? ',' : ' ').Append(name).Append('=');
        _hasField = true;
        return _line;
    }
}
