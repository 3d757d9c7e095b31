namespace VatWatch.Readings;

/// <summary>Pauses that double from <paramref name="first"/> to <paramref name="longest"/>, each lengthened by up to a quarter at random. Not thread safe.</summary>
internal sealed class Backoff(TimeSpan first, TimeSpan longest, Random random)
{
    private const double Jitter = 0.25;

    private TimeSpan? _next;

    /// <summary>The next pause.</summary>
    public TimeSpan Next()
    {
        var pause = _next ?? first;
        _next = pause * 2 > longest ? longest : pause * 2;
        return pause * (1 + Jitter * random.NextDouble());
    }

    /// <summary>Begins again with the shortest.</summary>
    public void Reset() => _next = null;
}
