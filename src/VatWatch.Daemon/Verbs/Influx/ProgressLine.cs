namespace VatWatch.Daemon.Verbs.Influx;

/// <summary>One line of a terminal that is written over as work goes on; nothing where there is no terminal.</summary>
internal sealed class ProgressLine(TextWriter output, bool isTerminal)
{
    private int _width;

    /// <summary>Shows <paramref name="words"/> in place of what stood there.</summary>
    public void Show(string words)
    {
        if (isTerminal)
        {
            output.Write($"\r{words.PadRight(_width)}");
            output.Flush();
            _width = words.Length;
        }
    }

    /// <summary>Empties the line.</summary>
    public void Clear()
    {
        if (isTerminal && _width > 0)
        {
            output.Write($"\r{new string(' ', _width)}\r");
            _width = 0;
        }
    }
}
