using Microsoft.Extensions.Time.Testing;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Pipeline.Stages;
using VatWatch.Plans;
using VatWatch.Plans.Warm;
using VatWatch.Sessions.Entries;
using VatWatch.Testing;
using VatWatch.Tests.Alarms;

namespace VatWatch.Tests.Pipeline.Stages;

public sealed class PlanRemindersTests : IAsyncDisposable
{
    private static readonly DateTimeOffset Evening = new(2031, 3, 14, 21, 0, 0, TimeSpan.Zero);
    private static readonly VatDefinition Vat = WatchedVat.MadderLane(WatchedVat.Probe("liquor", Quantity.Temperature)) with { HeaterWatts = 1500 };
    private static readonly KeptWarmPlan Nine = new(new(9, 0), 44, [.. Enum.GetValues<DayOfWeek>()], null, "Ada");

    private readonly FakeTimeProvider _time = new(Evening);
    private readonly StillFeed _feed;
    private readonly LogBookRig _rig;
    private readonly PlanReminders _reminders;
    private readonly List<HeaterDue?> _told = [];

    public PlanRemindersTests()
    {
        var clock = new WatchClock(_time);
        _feed = new(clock) { Vats = [new LiveVat(Vat, [], Cold(clock.Now()), [])] };
        _rig = new(new HashSet<VatId> { Vat.Id }, _ => { }, clock);
        _reminders = new(_rig.Store.OpenReader, _feed, (_, due) => _told.Add(due), _rig.Plans.KeepAsync, TimeZoneInfo.Utc, _time);
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_kept_plan_tells_when_the_heater_is_due()
    {
        await _reminders.RunOnceAsync(Cancel);
        Assert.Empty(_told);
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        var due = Assert.Single(_told)!;
        Assert.Equal((Evening.AddHours(12), 44, null), (due.Ready, due.TargetC, due.Late));

        // 150 L from about 20 to 44 °C with 1500 W: 150 · 4.15 · 24 kJ / 1.5 kW = 2.8 h, and losses.
        Assert.InRange((due.Ready - due.SwitchOn).TotalHours, 2.8, 3.8);
    }

    [Fact]
    public async Task A_plan_that_is_put_off_or_dropped_is_told_so()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        await _rig.Plans.PutOffAsync(Vat.Id, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.Equal(Evening.AddHours(36), _told[^1]!.Ready);
        await _rig.Plans.KeepAsync(Vat.Id, (KeptWarmPlan?)null, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.Null(_told[^1]);
    }

    [Fact]
    public async Task A_heater_that_was_entered_as_on_is_awaited_no_more_until_it_is_withdrawn()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        var entry = (await _rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOn, "Ada"), Cancel)).Entry!;
        await _reminders.RunOnceAsync(Cancel);
        Assert.Null(_told[^1]);
        await _rig.Desk.WithdrawAsync(Vat.Id, entry.Id, "Ada", Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.NotNull(_told[^1]);
    }

    /// <summary>Somebody warmed the vat at half past nine in the evening, and switched off at ten: the plan still wants it warm at nine in the morning.</summary>
    [Fact]
    public async Task A_heater_that_was_on_for_something_else_is_still_awaited()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        _time.SetUtcNow(Evening.AddMinutes(30));
        await _rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOn, "Ada"), Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.Empty(_told);
        _time.SetUtcNow(Evening.AddMinutes(60));
        await _rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOff, "Ada"), Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.Equal(Evening.AddHours(12), _told[^1]!.Ready);
    }

    [Fact]
    public async Task A_wish_that_can_no_longer_be_kept_is_due_at_once_and_says_what_can()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine with { ReadyAt = new(22, 0) }, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        var due = _told[^1]!;
        Assert.Equal(Evening, due.SwitchOn, TimeSpan.FromMinutes(1));
        Assert.True(due.Late > due.Ready);
    }

    [Fact]
    public async Task What_was_foretold_is_kept_when_the_heater_is_due_and_stays_as_it_was()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.Null(Foretold());
        var due = _told[^1]!;

        // The liquor is still at 20 °C, so the heater is due a little later than was foretold.
        Look(due.SwitchOn.AddMinutes(60));
        await _reminders.RunOnceAsync(Cancel);
        var foretold = Foretold()!;
        Assert.Equal((Evening.AddHours(12), 44), (foretold.Wish, foretold.TargetC));
        Assert.InRange(foretold.SwitchOn, due.SwitchOn, due.SwitchOn.AddMinutes(60));
        Assert.True(foretold.Early < foretold.Ready && foretold.Ready < foretold.Late);
        Look(due.SwitchOn.AddMinutes(90));
        await _reminders.RunOnceAsync(Cancel);
        Assert.Equal(foretold, Foretold());
    }

    [Fact]
    public async Task A_heater_that_goes_on_before_it_is_due_is_held_to_what_was_said_last()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        var due = _told[^1]!;
        await _rig.Desk.WriteAsync(new(Vat.Id, EntryKind.HeaterOn, "Ada"), Cancel);
        await _reminders.RunOnceAsync(Cancel);
        Assert.Equal(due.Foretold, Foretold());
    }

    [Fact]
    public async Task While_the_probe_is_away_what_was_said_last_stands()
    {
        await _rig.Plans.KeepAsync(Vat.Id, Nine, Cancel);
        await _reminders.RunOnceAsync(Cancel);
        _feed.Vats = [new LiveVat(Vat, [], new ConditionAssessor(Vat, DisplayUnits.Si).Assess(_feed.Clock.Now()), [])];
        await _reminders.RunOnceAsync(Cancel);
        Assert.Single(_told);
    }

    public ValueTask DisposeAsync() => _rig.DisposeAsync();

    private ForetoldWarmUp? Foretold()
    {
        using var reader = _rig.Store.OpenReader();
        return PlanTable.ForetoldIn(reader, Vat.Id, Evening, Evening.AddDays(1));
    }

    private void Look(DateTimeOffset at)
    {
        _time.SetUtcNow(at);
        _feed.Vats = [new LiveVat(Vat, [], Cold(_feed.Clock.Now()), [])];
    }

    private static VatCondition Cold(Stamp now)
    {
        var assessor = new ConditionAssessor(Vat, DisplayUnits.Si);
        for (var seconds = -1800; seconds <= 0; seconds += 5)
        {
            assessor.Accept(new Measurement(Vat.Id, new("liquor"), Quantity.Temperature, now.Plus(TimeSpan.FromSeconds(seconds)), 20, 20 + (0.02 * (seconds / 5 % 3)), Quality.Good, null, null));
        }

        return assessor.Assess(now);
    }
}
