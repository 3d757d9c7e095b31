using System.Threading.Channels;

namespace VatWatch.Store;

/// <summary>Wakes one waiter; ringing it again before it was heard changes nothing. Thread safe.</summary>
internal sealed class Bell
{
    private readonly Channel<bool> _rung = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    /// <summary>Rings.</summary>
    public void Ring() => _rung.Writer.TryWrite(true);

    /// <summary>Waits for a ring, for <paramref name="longest"/> or until cancelled, whichever comes first; tells by nothing which it was.</summary>
    public async Task HearAsync(TimeSpan longest, TimeProvider time, CancellationToken cancel)
    {
        using var timer = new CancellationTokenSource(longest, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timer.Token, cancel);
        try
        {
            await _rung.Reader.ReadAsync(either.Token);
        }
        catch (OperationCanceledException)
        {
            // The time is up or the stage stops; the caller looks at both.
        }
    }
}
