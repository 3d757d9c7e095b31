using Microsoft.Extensions.Time.Testing;
using VatWatch.Daemon.Service;

namespace VatWatch.Daemon.Tests.Service;

public sealed class ManagedHeapTests
{
    [Fact]
    public void What_is_no_longer_used_is_given_back_every_ten_minutes()
    {
        var time = new FakeTimeProvider();
        using var upkeep = ManagedHeap.GiveBackUnused(time);
        var forgotten = Forgotten();

        time.Advance(TimeSpan.FromMinutes(9.9));
        var before = GC.CollectionCount(2);
        time.Advance(TimeSpan.FromMinutes(0.2));

        Assert.True(GC.CollectionCount(2) > before);
        Assert.False(forgotten.IsAlive);
    }

    [System.Runtime.CompilerServices.MethodImpl(System.Runtime.CompilerServices.MethodImplOptions.NoInlining)]
    private static WeakReference Forgotten() => new(new byte[10_000]);
}
