using VatWatch.Sessions.Entries;
using VatWatch.Testing;

namespace VatWatch.Tests.Pipeline.Assembly;

/// <summary>What a run takes up of a heater that was switched on during the one before it.</summary>
public sealed class WarmUpOverRestartTests
{
    [Fact]
    public async Task A_warm_up_that_was_begun_goes_on_from_its_own_time()
    {
        var begun = DateTimeOffset.UtcNow.AddHours(-2);
        var readyBy = begun.AddHours(9);
        await using var line = new LineRig(simulatedC: 20, before: work => Write(work, EntryKind.HeaterOn, begun, readyBy));
        await line.StartAsync();
        await Eventually.TrueAsync(() => line.Condition("simulated").WarmUp is not null, "it is followed");
        var warmUp = line.Condition("simulated").WarmUp!;
        Assert.Equal(readyBy, warmUp.ReadyBy!.Value, TimeSpan.FromSeconds(1));
        Assert.InRange(line.Condition("simulated").Stamp.Since(warmUp.Since), TimeSpan.FromMinutes(119.5), TimeSpan.FromMinutes(122));
        Assert.Null(line.Condition("wired").WarmUp);
    }

    [Fact]
    public async Task One_that_was_ended_or_withdrawn_or_began_a_day_ago_does_not()
    {
        var now = DateTimeOffset.UtcNow;
        await using var line = new LineRig(simulatedC: 20, before: work =>
        {
            Write(work, EntryKind.HeaterOn, now.AddHours(-25));
            var slip = Write(work, EntryKind.HeaterOn, now.AddHours(-3));
            EntryTable.Withdraw(work, new("simulated"), slip.Id, "anyone", now.AddHours(-3));
            Write(work, EntryKind.HeaterOn, now.AddHours(-2));
            Write(work, EntryKind.HeaterOff, now.AddHours(-1));
        });
        await line.StartAsync();
        await Eventually.TrueAsync(() => line.Condition("simulated").TemperatureC is not null, "it is watched");
        Assert.Null(line.Condition("simulated").WarmUp);
    }

    private static SessionEntry Write(VatWatch.Store.StoreTransaction work, EntryKind kind, DateTimeOffset at, DateTimeOffset? readyBy = null) =>
        EntryTable.Write(work, new(new("simulated"), kind, "anyone"), null, new Stamp(at, TimeSpan.FromHours(5), true), readyBy);
}
