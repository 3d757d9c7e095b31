namespace VatWatch.Store;

/// <summary>Wakes one waiter; ringing it again before it was heard changes nothing. Thread safe.</summary>
internal sealed class Bell : IDisposable
{
    private readonly SemaphoreSlim _rung = new(0, 1);
    private readonly Lock _gate = new();

    /// <summary>Rings.</summary>
    public void Ring()
    {
        lock (_gate)
        {
            if (_rung.CurrentCount == 0)
            {
                _rung.Release();
            }
        }
    }

    /// <summary>Waits for a ring, for <paramref name="longest"/> or until cancelled, whichever comes first; tells by nothing which it was.</summary>
    public async Task HearAsync(TimeSpan longest, TimeProvider time, CancellationToken cancel)
    {
        using var timer = new CancellationTokenSource(longest, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timer.Token, cancel);
        try
        {
            await _rung.WaitAsync(either.Token);
        }
        catch (OperationCanceledException)
        {
            // The time is up or the stage stops; the caller looks at both.
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _rung.Dispose();
}
