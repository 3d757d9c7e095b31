using System.Globalization;
using Serilog.Events;
using Serilog.Formatting;
using Serilog.Formatting.Display;

namespace VatWatch.Daemon.Wiring;

/// <summary>
/// A line for systemd's journal, which has the time itself and takes the priority from a number in front (sd-daemon(3)): so
/// <c>journalctl -p warning</c> shows what went wrong and nothing else. Safe for several threads.
/// </summary>
internal sealed class JournalLine : ITextFormatter
{
    private readonly MessageTemplateTextFormatter _plain = new("{Message:lj}{NewLine}{Exception}", CultureInfo.InvariantCulture);

    /// <summary>Whether what is written goes to the journal of a service: a person's terminal may have inherited the first of the two.</summary>
    /// <param name="variable">The environment.</param>
    public static bool IsWanted(Func<string, string?> variable) => variable("JOURNAL_STREAM") is { Length: > 0 } && variable("NOTIFY_SOCKET") is { Length: > 0 };

    public void Format(LogEvent logEvent, TextWriter output)
    {
        output.Write(logEvent.Level switch
        {
            LogEventLevel.Fatal => "<2>",
            LogEventLevel.Error => "<3>",
            LogEventLevel.Warning => "<4>",
            LogEventLevel.Information => "<6>",
            _ => "<7>",
        });
        _plain.Format(logEvent, output);
    }
}
