using VatWatch.Measurements;

namespace VatWatch.Store.Writing;

/// <summary>Readings that are not on disk yet, oldest first and bounded. A batch stays in it until its commit is known. Thread safe.</summary>
internal sealed class MeasurementBuffer(int bound)
{
    private readonly Lock _gate = new();
    private readonly Queue<Measurement> _waiting = new();
    private long _firstNumber;
    private long _dropped;

    /// <summary>How many wait.</summary>
    public int Count
    {
        get
        {
            lock (_gate)
            {
                return _waiting.Count;
            }
        }
    }

    /// <summary>How many were lost because the buffer was full.</summary>
    public long Dropped
    {
        get
        {
            lock (_gate)
            {
                return _dropped;
            }
        }
    }

    /// <summary>Takes one more.</summary>
    /// <returns>How many wait now, and whether the oldest had to go for it.</returns>
    public (int Count, bool DroppedOldest) Add(Measurement measurement)
    {
        lock (_gate)
        {
            var full = _waiting.Count >= bound;
            if (full)
            {
                _waiting.Dequeue();
                _firstNumber++;
                _dropped++;
            }

            _waiting.Enqueue(measurement);
            return (_waiting.Count, full);
        }
    }

    /// <summary>Everything that waits. Nothing is removed before <see cref="Release"/>.</summary>
    public Batch Peek()
    {
        lock (_gate)
        {
            return new([.. _waiting], _firstNumber);
        }
    }

    /// <summary>Removes a batch that is on disk. Readings of it that were dropped while it was being written are on disk too, and no longer count as dropped.</summary>
    public void Release(Batch batch)
    {
        lock (_gate)
        {
            var end = batch.FirstNumber + batch.Measurements.Count;
            _dropped -= Math.Min(_firstNumber, end) - batch.FirstNumber;
            while (_firstNumber < end)
            {
                _waiting.Dequeue();
                _firstNumber++;
            }
        }
    }

    /// <summary>Readings in order of arrival.</summary>
    /// <param name="Measurements">The readings.</param>
    /// <param name="FirstNumber">Number of the first, counted from the start of the buffer.</param>
    public readonly record struct Batch(IReadOnlyList<Measurement> Measurements, long FirstNumber);
}
