using Microsoft.Extensions.Time.Testing;
using VatWatch.Measurements;
using VatWatch.Plans.Warm;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;
using VatWatch.Tests.Alarms;

namespace VatWatch.Tests.Sessions;

/// <summary>A plan that wanted 44 °C by nine: on at 5:00, four hours, at the earliest ten minutes less, at the latest twenty more.</summary>
public sealed class WarmOutcomeTests
{
    private static readonly VatDefinition Vat = WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature));
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);
    private static readonly ForetoldWarmUp Foretold = new(Nine, 44, Nine.AddHours(-4), Nine, Nine.AddMinutes(-10), Nine.AddMinutes(20));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0, 0, "05:00, on time", "4 h, as foretold", "09:00, at the wish")]
    [InlineData(12, 5, "05:12, 12 min later", "3 h 53 min, 7 min shorter", "09:05, 5 min after the wish")]
    [InlineData(-30, 10, "04:30, 30 min earlier", "4 h 40 min, 40 min longer; outside the range", "09:10, 10 min after the wish")]
    [InlineData(0, -11, "05:00, on time", "3 h 49 min, 11 min shorter; outside the range", "08:49, 11 min before the wish")]
    public void What_came_is_held_against_what_was_foretold_in_words(int onAfter, int readyAfter, string on, string took, string ready)
    {
        var outcome = new WarmOutcome(Nine, 44, Foretold, Nine.AddHours(-4).AddMinutes(onAfter), Nine.AddMinutes(readyAfter), 45);
        Assert.Equal(
            [("Heater on", "05:00", on), ("Warm-up", "4 h (3 h 50 min to 4 h 20 min)", took), ("Ready at 44.0 °C, wished by 09:00", "09:00 (08:50 to 09:20)", ready)],
            outcome.Rows(DisplayUnits.Si, TimeZoneInfo.Utc));
    }

    [Fact]
    public void A_vat_that_did_not_get_there_says_how_warm_it_got()
    {
        var outcome = new WarmOutcome(Nine, 44, Foretold with { Late = null }, null, null, 41.23);
        Assert.Equal(
            [("Heater on", "05:00", "not entered"), ("Ready at 111.2 °F, wished by 09:00", "09:00 (08:50 or much later)", "not in this time; 106.2 °F at most")],
            outcome.Rows(DisplayUnits.Us, TimeZoneInfo.Utc));
    }

    /// <summary>The heater goes on at 5:12; the thermostat cuts out at 43.8 °C at 9:05, two tenths below the wish by this thermometer.</summary>
    [Fact]
    public async Task It_is_read_from_what_the_plan_kept_and_the_log_book_says()
    {
        var time = new FakeTimeProvider(Nine.AddHours(-4).AddMinutes(12));
        var clock = new WatchClock(time);
        await using var rig = new LogBookRig(new HashSet<VatId> { Vat.Id }, _ => { }, clock);
        Assert.Null(await rig.Plans.KeepAsync(Vat.Id, Foretold, Cancel));
        await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOn, "Ada"), Cancel);
        for (var minute = -240; minute < 60; minute++)
        {
            var liquorC = minute < 5 ? 30 + 13.7 * (minute + 240) / 245 : 43.8;
            rig.Store.Enqueue(new Measurement(Vat.Id, new("liquor"), Quantity.Temperature, new Stamp(Nine.AddMinutes(minute), TimeSpan.FromMinutes(300 + minute), true), liquorC, liquorC, Quality.Good, null, null));
        }

        await rig.Store.FlushAsync(Cancel);
        time.SetUtcNow(Nine.AddMinutes(10));
        var session = (await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.DipIn, "Ada"), Cancel)).Session!;
        using var reader = rig.Store.OpenReader();
        var outcome = WarmOutcome.Read(reader, Vat, new("liquor"), session)!;
        Assert.Equal((Nine, 44, Foretold, Nine.AddHours(-4).AddMinutes(12)), (outcome.Wish, outcome.TargetC, outcome.Foretold, outcome.On));
        Assert.Equal(Nine.AddMinutes(5), outcome.At!.Value, TimeSpan.FromMinutes(2));
    }

    [Fact]
    public async Task A_later_wish_that_was_put_off_does_not_stand_before_the_one_that_the_heater_was_switched_on_for()
    {
        var time = new FakeTimeProvider(Nine.AddHours(-4));
        await using var rig = new LogBookRig(new HashSet<VatId> { Vat.Id }, _ => { }, new WatchClock(time));
        Assert.Null(await rig.Plans.KeepAsync(Vat.Id, Foretold with { Wish = Nine.AddHours(1) }, Cancel));
        Assert.Null(await rig.Plans.KeepAsync(Vat.Id, Foretold, Cancel));
        await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOn, "Ada") { ReadyAt = new(9, 0) }, Cancel);
        time.SetUtcNow(Nine);
        var session = (await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.DipIn, "Ada"), Cancel)).Session!;
        using var reader = rig.Store.OpenReader();
        Assert.Equal(Foretold, WarmOutcome.Read(reader, Vat, new("liquor"), session)!.Foretold);
    }
}
