using System.Globalization;
using Serilog.Events;
using Serilog.Formatting;
using Serilog.Formatting.Display;

namespace VatWatch.Daemon.Wiring;

/// <summary>A line of the log for a person, broken between words where a terminal shows it. Safe for several threads.</summary>
internal sealed class TerminalLine(string template) : ITextFormatter
{
    // What follows stands below the words and not below the time.
    private const int AfterTime = 9;
    private readonly MessageTemplateTextFormatter _plain = new(template, CultureInfo.InvariantCulture);

    public void Format(LogEvent logEvent, TextWriter output)
    {
        if (Console.IsOutputRedirected)
        {
            _plain.Format(logEvent, output);
            return;
        }

        using var whole = new StringWriter(CultureInfo.InvariantCulture);
        _plain.Format(logEvent, whole);
        foreach (var line in whole.ToString().TrimEnd('\n', '\r').Split('\n').SelectMany(line => FoldedText.Fold(line, FoldedText.Width, AfterTime)))
        {
            output.WriteLine(line);
        }
    }
}
