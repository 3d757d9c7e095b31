using Microsoft.Extensions.Time.Testing;

namespace VatWatch.Testing;

/// <summary>Lets made-up time pass where a test waits for a limit: how fast the machine is then makes no difference.</summary>
internal static class MadeUpTime
{
    /// <summary>Moves the clock on in steps until the work is done, however it ends; the pauses only let other threads run.</summary>
    public static async Task PassUntilAsync(this FakeTimeProvider clock, Task work, TimeSpan? step = null)
    {
        while (!work.IsCompleted)
        {
            clock.Advance(step ?? TimeSpan.FromMilliseconds(100));
            await Task.WhenAny(work, Task.Delay(TimeSpan.FromMilliseconds(2)));
        }
    }

    /// <summary>What the work gives when its limits pass.</summary>
    public static async Task<T> PassAsync<T>(this FakeTimeProvider clock, Task<T> work)
    {
        await clock.PassUntilAsync(work);
        return await work;
    }
}
