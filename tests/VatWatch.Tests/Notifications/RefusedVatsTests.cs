using Microsoft.Extensions.Time.Testing;
using VatWatch.Notifications;

namespace VatWatch.Tests.Notifications;

public sealed class RefusedVatsTests
{
    private static readonly DeliveryTimings Timings = new() { FirstRefusedRetry = TimeSpan.FromSeconds(30), MostRefusedRetry = TimeSpan.FromMinutes(10) };
    private static readonly VatId Madder = new("madder-lane");
    private static readonly VatId Weld = new("weld-yard");
    private readonly FakeTimeProvider _time = new();

    [Fact]
    public void Each_vat_waits_longer_with_every_refusal_and_by_itself()
    {
        var vats = new RefusedVats(Timings, _time);
        Assert.Null(vats.Reason);
        var (first, isNew) = vats.Add(Madder, "refused");
        Assert.True(isNew);
        Assert.InRange(first, TimeSpan.FromSeconds(24), TimeSpan.FromSeconds(36));
        Assert.True(vats.Waits(Madder));
        Assert.False(vats.Waits(Weld));
        Assert.Equal(first, vats.UntilNextTry(TimeSpan.FromHours(1)));
        Assert.Equal(TimeSpan.FromSeconds(10), vats.UntilNextTry(TimeSpan.FromSeconds(10)));
        _time.Advance(first);
        Assert.False(vats.Waits(Madder));
        Assert.Equal("refused", vats.Reason);
        var (second, isNewAgain) = vats.Add(Madder, "refused");
        Assert.False(isNewAgain);
        Assert.InRange(second, TimeSpan.FromSeconds(48), TimeSpan.FromSeconds(72));
        Assert.True(vats.Add(Madder, "another reason").IsNew);
    }

    [Fact]
    public void A_vat_is_forgotten_when_it_is_taken_or_nothing_of_it_waits()
    {
        var vats = new RefusedVats(Timings, _time);
        vats.Add(Madder, "refused");
        vats.Add(Weld, "refused too");
        Assert.True(vats.Remove(Madder));
        Assert.False(vats.Remove(Madder));
        Assert.Equal("refused too", vats.Reason);
        vats.KeepOnly([Weld]);
        Assert.NotNull(vats.Reason);
        vats.KeepOnly([Madder]);
        Assert.Null(vats.Reason);
    }

    [Fact]
    public void All_may_be_tried_at_once_and_begin_with_the_first_wait_again()
    {
        var vats = new RefusedVats(Timings, _time);
        vats.Add(Madder, "refused");
        vats.Add(Madder, "refused");
        vats.RetryAll();
        Assert.False(vats.Waits(Madder));
        Assert.Equal("refused", vats.Reason);
        Assert.InRange(vats.Add(Madder, "refused").Wait, TimeSpan.FromSeconds(24), TimeSpan.FromSeconds(36));
    }
}
