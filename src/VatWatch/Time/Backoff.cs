namespace VatWatch.Time;

/// <summary>Waits that double from <paramref name="first"/> to <paramref name="most"/>, each a fifth longer or shorter by chance. Not thread safe.</summary>
/// <param name="most">Longest wait before chance.</param>
/// <param name="chance">Gives 0 to 1.</param>
public sealed class Backoff(TimeSpan first, TimeSpan most, Func<double> chance)
{
    private const double Spread = 0.2;
    private TimeSpan? _next;

    /// <summary>The next wait.</summary>
    public TimeSpan Next()
    {
        var wait = _next ?? first;
        _next = wait * 2 > most ? most : wait * 2;
        return wait * (1 + Spread * (2 * chance() - 1));
    }

    /// <summary>Begins again with the first wait.</summary>
    public void Reset() => _next = null;
}
