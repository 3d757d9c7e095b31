using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Abstractions;

namespace VatWatch.Daemon.Tests.Web;

/// <summary>Keeps every line of the log that is ours.</summary>
internal sealed class KeptLog : ILoggerProvider, ILogger
{
    public ConcurrentQueue<string> Lines { get; } = new();

    public ILogger CreateLogger(string categoryName) => categoryName.StartsWith(nameof(VatWatch), StringComparison.Ordinal) ? this : NullLogger.Instance;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Information;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        Lines.Enqueue(formatter(state, exception));

    public void Dispose()
    {
    }
}
