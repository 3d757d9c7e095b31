namespace VatWatch.Store.Writing;

/// <summary>When the next commit is due: every interval while they succeed, with growing pauses while they fail. For one thread.</summary>
internal sealed class CommitPace
{
    private readonly TimeSpan _interval;
    private readonly TimeProvider _time;
    private TimeSpan _pause;
    private long _from;
    private int _failures;

    /// <summary>The first commit is due one interval from now.</summary>
    public CommitPace(TimeSpan interval, TimeProvider time)
    {
        _interval = interval;
        _time = time;
        Restart(interval);
    }

    /// <summary>Whether the last commit failed.</summary>
    public bool IsFailing => _failures > 0;

    /// <summary>Time until the next commit is due; zero or less when it is.</summary>
    public TimeSpan UntilDue => _pause - _time.GetElapsedTime(_from);

    /// <summary>A moment to give to <see cref="Succeeded(long)"/>.</summary>
    public long Now => _time.GetTimestamp();

    /// <summary>There was nothing to commit.</summary>
    public void Succeeded() => Succeeded(Now);

    /// <summary>
    /// A commit of what waited at <paramref name="began"/> reached the disk. The interval counts from then, not from the commit's end, so that
    /// no reading waits for longer than one interval and one commit.
    /// </summary>
    public void Succeeded(long began)
    {
        _failures = 0;
        (_from, _pause) = (began, _interval);
    }

    /// <summary>A commit failed; the pause before the next.</summary>
    public TimeSpan Failed()
    {
        var doubled = FirstPause * (1 << Math.Min(_failures++, 10));
        Restart(doubled < LongestPause ? doubled : LongestPause);
        return _pause;
    }

    private void Restart(TimeSpan pause)
    {
        _from = _time.GetTimestamp();
        _pause = pause;
    }

    /// <summary>A lock of another program is usually gone within a second.</summary>
    private static readonly TimeSpan FirstPause = TimeSpan.FromSeconds(1);

    /// <summary>A disk that was full at night is noticed as free again within half a minute.</summary>
    private static readonly TimeSpan LongestPause = TimeSpan.FromSeconds(30);
}
