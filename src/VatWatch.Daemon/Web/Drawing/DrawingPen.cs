namespace VatWatch.Daemon.Web.Drawing;

/// <summary>The one pen of the web side: charts, reports and comparisons are drawn one at a time, because each takes tens of megabytes and the board may be small. Thread safe.</summary>
internal sealed class DrawingPen(TimeProvider time) : IDisposable
{
    /// <summary>Nobody is kept waiting longer than this, for the pen and for the drawing each.</summary>
    public static TimeSpan Longest { get; } = TimeSpan.FromSeconds(15);

    private readonly SemaphoreSlim _pen = new(1);

    /// <summary>Waits for the pen; disposing of what comes lays it down. Null when others held it for too long.</summary>
    public async Task<IDisposable?> TryTakeAsync(CancellationToken cancel)
    {
        using var deadline = new Deadline(Longest, time, cancel);
        try
        {
            await _pen.WaitAsync(deadline.Token);
            return new Hold(_pen);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return null;
        }
    }

    public void Dispose() => _pen.Dispose();

    private sealed class Hold(SemaphoreSlim pen) : IDisposable
    {
        public void Dispose() => pen.Release();
    }
}
