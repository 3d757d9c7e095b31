using System.Diagnostics;

namespace VatWatch.Testing;

/// <summary>Waits for what another process does, with a limit.</summary>
internal static class Eventually
{
    /// <summary>Looks every 20 ms; throws <see cref="TimeoutException"/> naming <paramref name="what"/> after <paramref name="limit"/> (20 s unless told).</summary>
    public static async Task TrueAsync(Func<bool> condition, string what, TimeSpan? limit = null)
    {
        var watch = Stopwatch.StartNew();
        while (!condition())
        {
            if (watch.Elapsed > (limit ?? TimeSpan.FromSeconds(20)))
            {
                throw new TimeoutException($"did not happen within {watch.Elapsed.TotalSeconds:0.0} s: {what}");
            }

            await Task.Delay(20);
        }
    }
}
