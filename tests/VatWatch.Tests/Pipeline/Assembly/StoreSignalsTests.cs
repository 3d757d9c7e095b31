using Microsoft.Extensions.Time.Testing;
using VatWatch.Pipeline.Assembly;
using VatWatch.Store;

namespace VatWatch.Tests.Pipeline.Assembly;

public sealed class StoreSignalsTests
{
    private readonly FakeTimeProvider _time = new();
    private StoreHealth _health = new(null, null, 0, 0, null, null);

    [Fact]
    public void Lost_readings_are_told_while_the_disk_fails_and_for_ten_minutes_after()
    {
        var signals = new StoreSignals(() => _health, _time);
        Assert.Equal((false, "Readings are written to the disk again."), Evaluate(signals));

        _health = _health with { FailingSince = _time.GetUtcNow(), Reason = "the disk is full", Buffered = 100 };
        Assert.Equal((true, "Readings cannot be written to the disk: the disk is full. 100 wait in memory."), Evaluate(signals));

        _health = _health with { Dropped = 7 };
        Assert.Equal((true, "Readings cannot be written to the disk: the disk is full. 100 wait in memory. 7 were lost since the start, because the memory for those that wait was full."), Evaluate(signals));

        _health = _health with { FailingSince = null, Reason = null, Buffered = 0 };
        Assert.Equal((true, "Readings are written to the disk again, but not all: 7 were lost since the start, because the memory for those that wait was full."), Evaluate(signals));

        _time.Advance(TimeSpan.FromMinutes(10));
        Assert.Equal((false, "Readings are written to the disk again. 7 were lost since the start, because the memory for those that wait was full."), Evaluate(signals));
    }

    [Fact]
    public void Readings_lost_by_a_disk_that_is_only_slow_are_told_too()
    {
        _health = _health with { Dropped = 1 };
        Assert.True(Evaluate(new StoreSignals(() => _health, _time)).Active);
    }

    [Fact]
    public void A_damaged_store_that_was_set_aside_stays_told()
    {
        _health = _health with { Quarantined = "The store was damaged and set aside." };
        Assert.Equal((true, "The store was damaged and set aside."), Evaluate(new StoreSignals(() => _health, _time)));
    }

    private static (bool? Active, string Sentence) Evaluate(StoreSignals signals)
    {
        var signal = Assert.Single(signals.Signals());
        Assert.Equal("store-fault", signal.Alarm.Value);
        return (signal.Active, signal.Sentence);
    }
}
