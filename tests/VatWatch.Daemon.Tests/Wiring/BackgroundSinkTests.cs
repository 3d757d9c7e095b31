using Serilog;
using Serilog.Core;
using Serilog.Events;
using VatWatch.Daemon.Wiring;
using VatWatch.Testing;

namespace VatWatch.Daemon.Tests.Wiring;

public sealed class BackgroundSinkTests : IDisposable
{
    private readonly HaltedConsole _console = new();

    [Fact]
    public async Task Lines_past_the_bound_are_counted_and_told_of_and_nobody_waits()
    {
        using var sink = new BackgroundSink(new LoggerConfiguration().WriteTo.Sink(_console).CreateLogger(), most: 3);
        using var log = new LoggerConfiguration().WriteTo.Sink(sink).CreateLogger();
        log.Information("Line {Number}", 0);
        await Eventually.TrueAsync(() => _console.IsWriting, "the first line is being written");
        for (var number = 1; number <= 5; number++)
        {
            log.Information("Line {Number}", number);
        }

        Assert.Equal(2, sink.Dropped);
        _console.Resume();
        await Eventually.TrueAsync(() => _console.Lines.Count == 5, "what waited is written");
        Assert.Equal(["Line 0", "2 lines were not written here, because nobody read them for a while.", "Line 1", "Line 2", "Line 3"], _console.Lines);
    }

    [Fact]
    public void What_was_said_last_is_written_before_the_end()
    {
        _console.Resume();
        using (var sink = new BackgroundSink(new LoggerConfiguration().WriteTo.Sink(_console).CreateLogger()))
        {
            using var log = new LoggerConfiguration().WriteTo.Sink(sink).CreateLogger();
            log.Information("Closed.");
        }

        Assert.Equal(["Closed."], _console.Lines);
    }

    [Fact]
    public async Task A_console_that_stays_halted_does_not_keep_the_end_from_coming()
    {
        var sink = new BackgroundSink(new LoggerConfiguration().WriteTo.Sink(_console).CreateLogger());
        using var log = new LoggerConfiguration().WriteTo.Sink(sink).CreateLogger();
        log.Information("Closed.");
        await Task.Run(sink.Dispose, TestContext.Current.CancellationToken).WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
        _console.Resume();
        await Eventually.TrueAsync(() => _console.Lines.Count == 1, "the line is written after all");
    }

    public void Dispose() => _console.Dispose();

    /// <summary>Keeps whoever writes waiting until it is read again.</summary>
    private sealed class HaltedConsole : ILogEventSink, IDisposable
    {
        private readonly ManualResetEventSlim _read = new();
        private readonly List<string> _lines = [];
        private volatile bool _writing;

        public bool IsWriting => _writing;

        public IReadOnlyList<string> Lines
        {
            get
            {
                lock (_lines)
                {
                    return [.. _lines];
                }
            }
        }

        public void Dispose() => _read.Dispose();

        public void Resume() => _read.Set();

        public void Emit(LogEvent logEvent)
        {
            _writing = true;
            _read.Wait();
            lock (_lines)
            {
                _lines.Add(logEvent.RenderMessage(System.Globalization.CultureInfo.InvariantCulture));
            }
        }
    }
}
