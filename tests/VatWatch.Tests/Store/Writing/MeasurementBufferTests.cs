using VatWatch.Store.Writing;

using static VatWatch.Tests.Store.StoreRig;

namespace VatWatch.Tests.Store.Writing;

public sealed class MeasurementBufferTests
{
    [Fact]
    public void A_batch_stays_until_it_is_released()
    {
        var buffer = new MeasurementBuffer(10);
        buffer.Add(Reading(1));
        buffer.Add(Reading(2));
        var batch = buffer.Peek();
        buffer.Add(Reading(3));
        Assert.Equal(3, buffer.Count);
        buffer.Release(batch);
        Assert.Equal([Reading(3)], buffer.Peek().Measurements);
    }

    [Fact]
    public void What_was_pushed_out_while_its_commit_ran_is_not_counted_as_lost()
    {
        var buffer = new MeasurementBuffer(2);
        buffer.Add(Reading(1));
        buffer.Add(Reading(2));
        var batch = buffer.Peek();
        Assert.True(buffer.Add(Reading(3)).DroppedOldest);
        buffer.Add(Reading(4));
        buffer.Add(Reading(5));
        Assert.Equal(3, buffer.Dropped);

        buffer.Release(batch);

        Assert.Equal(1, buffer.Dropped); // only reading 3
        Assert.Equal([Reading(4), Reading(5)], buffer.Peek().Measurements);
    }
}
