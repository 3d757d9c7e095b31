using System.Globalization;

namespace VatWatch.Daemon.Verbs;

/// <summary>How far a long work has come, on one line of a terminal that is written over. Silent where there is no terminal. Not thread safe.</summary>
/// <param name="console">Where to write; nothing is written unless a person looks at its errors.</param>
/// <param name="work">What is being done.</param>
/// <param name="total">When it is done.</param>
internal sealed class ProgressLine(VerbConsole console, string work, long total) : IDisposable
{
    private const int Cells = 24;
    private int _shown = -1;

    /// <summary>So much of it is done.</summary>
    public void At(long done)
    {
        var percent = total > 0 ? (int)(100 * Math.Min(done, total) / total) : 100;
        if (!console.IsTerminal || percent == _shown)
        {
            return;
        }

        _shown = percent;
        var filled = percent * Cells / 100;
        console.Error.Write(string.Create(CultureInfo.InvariantCulture, $"\r{work} [{new string('=', filled)}{new string(' ', Cells - filled)}] {percent} %"));
    }

    /// <summary>Takes the line away, so that something else can be written.</summary>
    public void Clear()
    {
        if (_shown >= 0)
        {
            console.Error.Write($"\r{new string(' ', work.Length + Cells + 10)}\r");
            _shown = -1;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => Clear();
}
