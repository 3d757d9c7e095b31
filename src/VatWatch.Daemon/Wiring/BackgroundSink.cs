using System.Collections.Concurrent;
using Serilog.Core;
using Serilog.Events;

namespace VatWatch.Daemon.Wiring;

/// <summary>
/// Takes what is said and writes it on a thread of its own, because a console can keep its writer waiting for ever: a halted terminal, a pager, a
/// stuck journal. Past <see cref="Most"/> lines that wait, new ones are dropped, counted, and told of when the console is read again. Thread safe.
/// </summary>
internal sealed class BackgroundSink : ILogEventSink, IDisposable
{
    /// <summary>Lines that may wait; some megabytes, and days of a calm vat.</summary>
    private const int Most = 10_000;

    /// <summary>What is said last is waited for this long at the end.</summary>
    private static readonly TimeSpan LastWords = TimeSpan.FromSeconds(2);

    private readonly BlockingCollection<LogEvent> _waiting;
    private readonly Logger _console;
    private readonly Thread _writer;
    private long _dropped;

    /// <summary>Writes to <paramref name="console"/>, which is disposed of with this.</summary>
    public BackgroundSink(Logger console, int most = Most)
    {
        _console = console;
        _waiting = new(most);
        _writer = new Thread(Write) { IsBackground = true, Name = "console" };
        _writer.Start();
    }

    /// <summary>Lines that were never written, because nobody read the console.</summary>
    public long Dropped => Interlocked.Read(ref _dropped);

    public void Emit(LogEvent logEvent)
    {
        if (_waiting.IsAddingCompleted || !_waiting.TryAdd(logEvent))
        {
            Interlocked.Increment(ref _dropped);
        }
    }

    public void Dispose()
    {
        if (_waiting.IsAddingCompleted)
        {
            return;
        }

        _waiting.CompleteAdding();
        if (_writer.Join(LastWords))
        {
            _console.Dispose();
        }
    }

    private void Write()
    {
        var told = 0L;
        foreach (var line in _waiting.GetConsumingEnumerable())
        {
            _console.Write(line);
            if (Dropped is var dropped && dropped > told)
            {
                _console.Warning("{Lines} lines were not written here, because nobody read them for a while.", dropped - told);
                told = dropped;
            }
        }
    }
}
