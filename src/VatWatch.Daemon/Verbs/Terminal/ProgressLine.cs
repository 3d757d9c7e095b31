namespace VatWatch.Daemon.Verbs.Terminal;

/// <summary>How far a long work has come, on one line of a terminal that is written over. Silent where there is no terminal. Not thread safe.</summary>
/// <param name="console">Where to write; nothing is written unless a person looks at its errors.</param>
internal sealed class ProgressLine(VerbConsole console) : IDisposable
{
    private const int Cells = 24;
    private string _shown = "";

    /// <summary>Shows words in place of what stood there.</summary>
    public void Show(string words)
    {
        if (console.IsTerminal && words != _shown)
        {
            console.Error.Write($"\r{words.PadRight(_shown.Length)}");
            console.Error.Flush();
            _shown = words;
        }
    }

    /// <summary>Shows a bar: so much of the work is done.</summary>
    public void Show(string work, long done, long total)
    {
        var percent = total > 0 ? (int)(100 * Math.Min(done, total) / total) : 100;
        var filled = percent * Cells / 100;
        Show($"{work} [{new string('=', filled)}{new string(' ', Cells - filled)}] {percent} %");
    }

    /// <summary>Takes the line away, so that something else can be written.</summary>
    public void Clear()
    {
        if (_shown.Length > 0)
        {
            console.Error.Write($"\r{new string(' ', _shown.Length)}\r");
            _shown = "";
        }
    }

    public void Dispose() => Clear();
}
