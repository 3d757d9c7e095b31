namespace VatWatch.Daemon.Web.Pages;

/// <summary>
/// Lets the same tap twice within seconds be one tap: a wet finger on a slow phone taps again before the first answer is there. The second gets what came of the
/// first. Thread safe.
/// </summary>
internal sealed class DoubleTaps(TimeProvider time)
{
    /// <summary>A second tap within this is the first one again.</summary>
    public static readonly TimeSpan Window = TimeSpan.FromSeconds(5);

    private const int Most = 100;

    private readonly Lock _lock = new();
    private readonly Dictionary<object, (long At, Task Outcome)> _taps = [];

    /// <summary>What <paramref name="act"/> gives, or gave to an equal tap just now.</summary>
    /// <param name="tap">What was tapped, compared by value: who, where and what.</param>
    /// <param name="act">Carries it out.</param>
    public Task<T> OnceAsync<T>(object tap, Func<Task<T>> act)
    {
        lock (_lock)
        {
            if (_taps.TryGetValue(tap, out var first) && time.GetElapsedTime(first.At) < Window && first.Outcome is Task<T> { IsFaulted: false, IsCanceled: false } outcome)
            {
                return outcome;
            }

            foreach (var old in _taps.Where(pair => time.GetElapsedTime(pair.Value.At) >= Window).Select(pair => pair.Key).ToList())
            {
                _taps.Remove(old);
            }

            var now = act();
            if (_taps.Count < Most)
            {
                _taps[tap] = (time.GetTimestamp(), now);
            }

            return now;
        }
    }
}
