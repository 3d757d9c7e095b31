using System.Diagnostics;

namespace VatWatch.SystemTests;

/// <summary>Waits, with a bound, for something another process does.</summary>
internal static class Eventually
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    public static async Task<T> ResultAsync<T>(Func<T?> look, TimeSpan limit, Func<string> otherwise)
        where T : class
    {
        var watch = Stopwatch.StartNew();
        while (true)
        {
            if (look() is { } found)
            {
                return found;
            }

            if (watch.Elapsed > limit)
            {
                Assert.Fail($"not within {limit}: {otherwise()}");
            }

            await Task.Delay(Pause, TestContext.Current.CancellationToken);
        }
    }

    public static Task TrueAsync(Func<bool> look, TimeSpan limit, Func<string> otherwise) =>
        ResultAsync(() => look() ? "yes" : null, limit, otherwise);
}
