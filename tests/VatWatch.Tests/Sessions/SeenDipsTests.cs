using Microsoft.Extensions.Time.Testing;
using VatWatch.Measurements;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;
using VatWatch.Tests.Alarms;

namespace VatWatch.Tests.Sessions;

/// <summary>Dips of a morning, in the log book and in ORP by the minute.</summary>
public sealed class SeenDipsTests
{
    private static readonly VatDefinition Vat = WatchedVat.MadderLane(WatchedVat.Probe("orp", Quantity.Orp));
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(4, 30, 12, 15)] // up by 40 mV while goods are in; 15 min after they are out it is within 8 mV, a fifth of the rise, of where it was
    [InlineData(4, 4, 12, null)] // up by 4 mV, which says nothing
    [InlineData(2, 30, null, null)] // too few
    public async Task The_middle_of_the_last_dips_is_what_the_next_will_take(int dips, int riseTimes, int? minutesIn, int? minutesBack)
    {
        var rise = riseTimes * 4.0 / 3;
        var time = new FakeTimeProvider(Nine);
        await using var rig = new LogBookRig(new HashSet<VatId> { Vat.Id }, _ => { }, new WatchClock(time));
        for (var minute = -10; minute < 60 * dips; minute++)
        {
            // In for 12 minutes of each hour; then straight down to where it was in 18.75 min, so that a fifth of the rise is left after 15.
            var inDip = minute < 0 ? 59 : minute % 60;
            var above = inDip < 12 ? rise * inDip / 11 : Math.Max(0, rise * (1 - (inDip - 12) / 18.75));
            rig.Store.Enqueue(new Measurement(Vat.Id, new("orp"), Quantity.Orp, new Stamp(Nine.AddMinutes(minute), TimeSpan.FromMinutes(10 + minute), true), -700 + above, -700 + above, Quality.Good, null, null));
        }

        await rig.Store.FlushAsync(Cancel);
        for (var dip = 0; dip < dips; dip++)
        {
            time.SetUtcNow(Nine.AddMinutes(60 * dip));
            await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.DipIn, "Ada"), Cancel);
            time.SetUtcNow(Nine.AddMinutes(60 * dip + 12));
            await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.DipOut, "Ada"), Cancel);
        }

        using var reader = rig.Store.OpenReader();
        var seen = SeenDips.Read(reader, Vat, Nine.AddMinutes(60 * dips));
        Assert.Equal((minutesIn, minutesBack), ((int?)seen.Length?.TotalMinutes, (int?)seen.Recovery?.TotalMinutes));
    }
}
