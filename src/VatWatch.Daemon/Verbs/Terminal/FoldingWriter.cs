using System.Text;
using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Verbs.Terminal;

/// <summary>Breaks each whole line that is written between words at the width of the terminal; a question that waits for its answer stays as it is.</summary>
/// <param name="inner">Where to.</param>
/// <param name="width">Characters to a line.</param>
internal sealed class FoldingWriter(TextWriter inner, int width) : TextWriter
{
    private bool _isWithinLine;

    public override Encoding Encoding => inner.Encoding;

    public override void Write(char value)
    {
        inner.Write(value);
        _isWithinLine = value != '\n';
    }

    public override void Write(string? value)
    {
        inner.Write(value);
        _isWithinLine = string.IsNullOrEmpty(value) ? _isWithinLine : value[^1] != '\n';
    }

    public override void WriteLine() => Write('\n');

    public override void WriteLine(string? value)
    {
        foreach (var line in _isWithinLine || value is null ? [value ?? ""] : value.Split('\n').SelectMany(part => FoldedText.Fold(part, width)))
        {
            inner.WriteLine(line);
        }

        _isWithinLine = false;
    }

    public override void Flush() => inner.Flush();
}
