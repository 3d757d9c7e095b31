using System.Collections.Concurrent;
using VatWatch.Alarms;
using VatWatch.Pipeline;

namespace VatWatch.Testing;

/// <summary>An alarm desk that notes what it was handed and answers as the test says. Thread safe.</summary>
public sealed class RecordingDesk : IAlarmDesk
{
    private readonly ConcurrentQueue<Acknowledgement> _taken = new();

    /// <summary>What was handed in, in order.</summary>
    public IReadOnlyList<Acknowledgement> Taken => [.. _taken];

    /// <summary>The answer to the next ones.</summary>
    public Func<Acknowledgement, Task<bool>> Answer { get; set; } = _ => Task.FromResult(true);

    /// <inheritdoc/>
    public Task<bool> AcknowledgeAsync(Acknowledgement acknowledgement, CancellationToken cancel)
    {
        _taken.Enqueue(acknowledgement);
        return Answer(acknowledgement);
    }
}
