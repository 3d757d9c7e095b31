using Microsoft.Extensions.Time.Testing;

namespace VatWatch.Tests.Time;

public sealed class PulseTests
{
    private readonly FakeTimeProvider _time = new();
    private readonly Pulse _pulse;

    public PulseTests() => _pulse = new(TimeSpan.FromSeconds(30), _time);

    [Fact]
    public void One_that_rests_is_never_stuck()
    {
        _time.Advance(TimeSpan.FromDays(1));
        Assert.False(_pulse.IsStuck);
        _pulse.Tick();
        _pulse.Rest();
        _time.Advance(TimeSpan.FromDays(1));
        Assert.False(_pulse.IsStuck);
    }

    [Fact]
    public void One_that_has_not_come_round_within_its_limit_is_stuck_until_it_does()
    {
        _pulse.Tick();
        _time.Advance(TimeSpan.FromSeconds(30));
        Assert.False(_pulse.IsStuck);
        _time.Advance(TimeSpan.FromSeconds(1));
        Assert.True(_pulse.IsStuck);
        _pulse.Tick();
        Assert.False(_pulse.IsStuck);
    }
}
