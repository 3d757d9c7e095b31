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
    private readonly Dictionary<(string By, string Vat), (object Tap, long At, Task Outcome)> _last = [];

    /// <summary>What <paramref name="act"/> gives, or gave to an equal tap just now. Anything else that the person does at the vat in between makes it another tap.</summary>
    /// <param name="vat">The vat that it is about.</param>
    /// <param name="tap">What was tapped, compared by value.</param>
    /// <param name="act">Carries it out.</param>
    public Task<T> OnceAsync<T>(string by, string vat, object tap, Func<Task<T>> act)
    {
        lock (_lock)
        {
            if (_last.TryGetValue((by, vat), out var first) && first.Tap.Equals(tap) && time.GetElapsedTime(first.At) < Window && first.Outcome is Task<T> { IsFaulted: false, IsCanceled: false } outcome)
            {
                return outcome;
            }

            foreach (var old in _last.Where(pair => time.GetElapsedTime(pair.Value.At) >= Window).Select(pair => pair.Key).ToList())
            {
                _last.Remove(old);
            }

            var now = act();
            if (_last.Count < Most || _last.ContainsKey((by, vat)))
            {
                _last[(by, vat)] = (tap, time.GetTimestamp(), now);
            }

            return now;
        }
    }
}
