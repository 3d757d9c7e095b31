using Microsoft.Extensions.Time.Testing;
using VatWatch.Measurements;
using VatWatch.Plans.Day;
using VatWatch.Sessions;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;
using VatWatch.Tests.Alarms;

namespace VatWatch.Tests.Sessions;

/// <summary>A morning that was planned: warm by nine, two dips of ten minutes at 9:00 and 9:20.</summary>
public sealed class PlanOutcomeTests
{
    private static readonly VatDefinition Vat = WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature));
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_came_stands_beside_what_was_foretold()
    {
        var time = new FakeTimeProvider(Nine.AddHours(-3));
        var clock = new WatchClock(time);
        await using var rig = new LogBookRig(new HashSet<VatId> { Vat.Id }, _ => { }, clock);
        PlannedDip Dip(int number, int minute) => new(1, number, Nine.AddMinutes(minute), Nine.AddMinutes(minute + 10), Nine.AddMinutes(minute + 20), 45, 44.2, TimeSpan.Zero);
        await rig.Plans.KeepAsync(Vat.Id, new KeptDayPlan(["500 g wool x 2 dips"], new DayPlan { Begins = Nine, Loads = [new(1, new(500, "wool", 2), 1, [Dip(1, 0), Dip(2, 20)])], Ends = Nine.AddMinutes(40), EndsEarly = Nine.AddMinutes(40), Rests = [], Additions = [new(1, Nine.AddMinutes(10), Nine.AddMinutes(20), [new("soda-ash", 12)])] }), Cancel);
        await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOn, "Ada") { ReadyAt = TimeOnly.FromDateTime(TimeZoneInfo.ConvertTime(Nine, clock.Zone).DateTime) }, Cancel);

        // Warm at 8:50; then two dips of 10 and 14 minutes, from 9:00 and 9:30, that cool it by 1 K each.
        for (var minute = -180; minute < 60; minute++)
        {
            var isIn = minute is (>= 0 and < 10) or (>= 30 and < 44);
            var liquorC = minute < -10 ? 30 : isIn ? 44 : 45;
            rig.Store.Enqueue(new Measurement(Vat.Id, new("liquor"), Quantity.Temperature, new Stamp(Nine.AddMinutes(minute), TimeSpan.FromMinutes(180 + minute), true), liquorC, liquorC, Quality.Good, null, null));
        }

        await rig.Store.FlushAsync(Cancel);
        foreach (var (minute, kind) in new[] { (0, EntryKind.DipIn), (10, EntryKind.DipOut), (30, EntryKind.DipIn), (44, EntryKind.DipOut) })
        {
            time.SetUtcNow(Nine.AddMinutes(minute));
            Assert.Null((await rig.Desk.WriteAsync(new(Vat.Id, kind, "Ada"), Cancel)).Refused);
        }

        Assert.Null((await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.Added, "Ada") { Material = Material.SodaAsh, Amount = 15 }, Cancel)).Refused);
        Assert.Null((await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.Added, "Ada") { Material = Material.Stock, Amount = 0.5 }, Cancel)).Refused);
        using var reader = rig.Store.OpenReader();
        var session = Assert.Single(SessionTable.Newest(reader, Vat.Id, 5));
        var rows = PlanOutcome.Read(reader, Vat, session)!.Rows(DisplayUnits.Si, TimeZoneInfo.Utc).ToList();
        Assert.Equal(
            [("Warm", "by 09:00", "at 08:50, 10 min before the wish"), ("Dips", "2", "2"), ("Last dip out", "09:30", "09:44"), ("Cooling by a dip", "0.8 °C", "1.0 °C"), ("From dip to dip", "10 min", "20 min"), ("Soda ash", "12 g", "15 g"), ("Stock", "0 L", "0.5 L")],
            rows);
    }

    [Fact]
    public async Task A_session_that_nobody_planned_has_none()
    {
        var clock = new WatchClock(new FakeTimeProvider(Nine));
        await using var rig = new LogBookRig(new HashSet<VatId> { Vat.Id }, _ => { }, clock);
        var session = (await rig.Desk.WriteAsync(new(Vat.Id, EntryKind.DipIn, "Ada"), Cancel)).Session!;
        using var reader = rig.Store.OpenReader();
        Assert.Null(PlanOutcome.Read(reader, Vat, session));
    }
}
