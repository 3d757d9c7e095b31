using Microsoft.Extensions.Logging;
using VatWatch.Probes;
using VatWatch.Readings;
using VatWatch.Vats.Configuration;

namespace VatWatch.Tests.Readings;

/// <summary>A bus that does what a test says.</summary>
internal sealed class HandMadeBus : IProbeBus
{
    private TaskCompletionSource<string> _loss = new();

    public BusId Id { get; } = new("bench");

    public string Device => "by hand";

    public string? OpenFailure { get; set; }

    public bool CloseNeverReturns { get; set; }

    public int OpenAttempts { get; private set; }

    public bool IsClosed { get; private set; } = true;

    public void Lose(string reason) => _loss.TrySetResult(reason);

    public ValueTask OpenAsync(CancellationToken cancel)
    {
        OpenAttempts++;
        if (OpenFailure is { } reason)
        {
            throw new BusLostException(reason);
        }

        _loss = new TaskCompletionSource<string>();
        IsClosed = false;
        return ValueTask.CompletedTask;
    }

    public ValueTask CloseAsync()
    {
        IsClosed = true;
        return CloseNeverReturns ? new ValueTask(new TaskCompletionSource().Task) : ValueTask.CompletedTask;
    }

    public async Task WatchForLossAsync(CancellationToken cancel) => throw new BusLostException(await _loss.Task.WaitAsync(cancel));

    public ValueTask DisposeAsync() => CloseAsync();
}

/// <summary>A probe that does what a test says.</summary>
internal sealed class HandMadeProbe(string id, double everySeconds, Func<TimeProvider, CancellationToken, Task<Sample>> take, TimeProvider time) : IProbe
{
    public ProbeDefinition Definition { get; } = new(
        new ProbeId(id), new VatId("madder-lane"), Quantity.Temperature, new BusId("bench"), "by-hand",
        TimeSpan.FromSeconds(everySeconds), SampleUnit.Canonical(Quantity.Temperature));

    public bool Listens { get; init; }

    public async ValueTask<Sample> TakeSampleAsync(CancellationToken cancel) => await take(time, cancel);
}

/// <summary>Keeps the sentences that were logged.</summary>
internal sealed class SentenceLogger : ILogger<BusLoop>
{
    private readonly List<string> _sentences = [];

    public IReadOnlyList<string> Sentences
    {
        get
        {
            lock (_sentences)
            {
                return [.. _sentences];
            }
        }
    }

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
    {
        lock (_sentences)
        {
            _sentences.Add(formatter(state, exception));
        }
    }
}
