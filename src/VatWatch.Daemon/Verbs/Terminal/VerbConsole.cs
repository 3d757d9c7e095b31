using System.Text;
using VatWatch.Daemon.Wiring;

namespace VatWatch.Daemon.Verbs.Terminal;

/// <summary>Where a verb writes: answers to <paramref name="Out"/>, errors to <paramref name="Error"/>. Tests hand in their own.</summary>
/// <param name="Out">Answers.</param>
/// <param name="Person">Lines of a person at the keyboard; null when there is nobody to ask.</param>
internal sealed record VerbConsole(TextWriter Out, TextWriter Error, TextReader? Person = null)
{
    /// <summary>Whether a person looks at <see cref="Error"/> on a terminal, where a line can be written over.</summary>
    public bool IsTerminal { get; init; }

    /// <summary>Characters to a line of people's text; null where lines are not broken.</summary>
    public int? Width { get; init; }

    /// <summary>This console with lines broken at <see cref="Width"/>: answers always, errors where a person looks at them.</summary>
    public VerbConsole Folded() => Width is { } width
        ? this with { Out = new FoldingWriter(Out, width), Error = IsTerminal ? new FoldingWriter(Error, width) : Error }
        : this;

    /// <summary>The configuration; faults are said here.</summary>
    /// <exception cref="VerbEndedException">It has faults.</exception>
    public DaemonConfiguration Load(string? path) => DaemonConfiguration.Load(path, Error) ?? throw new VerbEndedException(ExitCode.BadConfiguration);

    /// <summary>Writes an error sentence and gives back <paramref name="code"/>.</summary>
    public int Fail(int code, string sentence)
    {
        Error.WriteLine($"vatwatch: {sentence}");
        return code;
    }
}

/// <summary>A verb cannot go on.</summary>
/// <param name="code">Its exit code.</param>
/// <param name="sentence">Why; empty where that has been said.</param>
internal sealed class VerbEndedException(int code, string sentence = "") : Exception(sentence)
{
    public int Code => code;
}

/// <summary>Breaks each whole line that is written between words at the width of the terminal; a question that waits for its answer stays as it is.</summary>
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
