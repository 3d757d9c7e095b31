using VatWatch.Plans;
using VatWatch.Plans.Day;
using VatWatch.Plans.Warm;
using VatWatch.Testing;

namespace VatWatch.Tests.Plans;

public sealed class PlanTableTests
{
    private static readonly VatId Vat = new("madder-lane");
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_warm_up_is_kept_put_off_replaced_and_dropped()
    {
        await using var rig = Rig();
        var plan = new KeptWarmPlan(new(9, 0), 45, [DayOfWeek.Monday, DayOfWeek.Friday], null, "Ada");
        Assert.Null(await rig.Plans.KeepAsync(Vat, plan, Cancel));
        var kept = Read(rig);
        Assert.Equal((plan.ReadyAt, plan.TargetC, plan.By, plan.PutOffUntil), (kept!.ReadyAt, kept.TargetC, kept.By, kept.PutOffUntil));
        Assert.Equal(plan.Days, kept.Days);

        Assert.Null(await rig.Plans.PutOffAsync(Vat, Cancel));
        Assert.NotNull(Read(rig)!.PutOffUntil);
        Assert.Null(await rig.Plans.KeepAsync(Vat, plan with { TargetC = 42 }, Cancel));
        Assert.Equal((42, null), (Read(rig)!.TargetC, Read(rig)!.PutOffUntil));
        Assert.Null(await rig.Plans.KeepAsync(Vat, (KeptWarmPlan?)null, Cancel));
        Assert.Null(Read(rig));
    }

    [Fact]
    public async Task The_plan_of_a_day_is_found_in_that_day_as_it_was_kept()
    {
        await using var rig = Rig();
        var dip = new PlannedDip(1, 1, Nine, Nine.AddMinutes(10), Nine.AddMinutes(20), 45.25, 44.5, TimeSpan.FromMinutes(3));
        var plan = new DayPlan { Begins = Nine, Loads = [new(1, new(500, "wool", 1), 1, [dip])], Ends = Nine.AddHours(1), EndsEarly = Nine.AddMinutes(50), Rests = [(Nine.AddHours(3), Nine.AddHours(4))] };
        Assert.Null(await rig.Plans.KeepAsync(Vat, new KeptDayPlan(["500 g wool x 1 dip"], plan), Cancel));
        using var reader = rig.Store.OpenReader();
        var kept = PlanTable.DayOf(reader, Vat, Nine.AddHours(5))!;
        Assert.Equal(["500 g wool x 1 dip"], kept.Goods);
        Assert.Equal(dip, kept.Plan.Dips.Single());
        Assert.Equal((plan.Ends, plan.EndsEarly, plan.EndsLate), (kept.Plan.Ends, kept.Plan.EndsEarly, kept.Plan.EndsLate));
        Assert.Equal(plan.Rests, kept.Plan.Rests);
        Assert.Null(PlanTable.DayOf(reader, Vat, Nine.AddHours(20)));
        Assert.Null(PlanTable.DayOf(reader, new("north-tub"), Nine));
    }

    [Fact]
    public async Task What_was_foretold_first_of_a_wish_stands()
    {
        await using var rig = Rig();
        var foretold = new ForetoldWarmUp(Nine, 44, Nine.AddHours(-4), Nine, Nine.AddMinutes(-10), null);
        Assert.Null(await rig.Plans.KeepAsync(Vat, foretold, Cancel));
        Assert.Null(await rig.Plans.KeepAsync(Vat, foretold with { SwitchOn = Nine.AddHours(-3) }, Cancel));
        Assert.Equal(foretold, Foretold(Nine.AddHours(-1)));
        Assert.Null(Foretold(Nine.AddHours(1)));
        Assert.Null(await rig.Plans.KeepAsync(Vat, foretold with { TargetC = 42 }, Cancel));
        Assert.Equal(42, Foretold(Nine.AddHours(-1))!.TargetC);

        ForetoldWarmUp? Foretold(DateTimeOffset from)
        {
            using var reader = rig.Store.OpenReader();
            return PlanTable.ForetoldIn(reader, Vat, from, Nine.AddDays(1));
        }
    }

    [Fact]
    public async Task What_cannot_be_read_is_as_if_it_were_not_kept()
    {
        await using var rig = Rig();
        await rig.Plans.KeepAsync(Vat, new KeptWarmPlan(new(9, 0), 45, [DayOfWeek.Monday], null, "Ada"), Cancel);
        await rig.Store.WriteAsync(work => work.Sql.Execute("UPDATE plan SET json = '{\"targetC\":1e9}'"), Cancel);
        Assert.Null(Read(rig));
    }

    [Fact]
    public async Task A_vat_that_is_not_there_keeps_no_plan()
    {
        await using var rig = Rig();
        Assert.Equal("There is no vat 'nowhere'.", await rig.Plans.PutOffAsync(new("nowhere"), Cancel));
    }

    private static LogBookRig Rig() => new(new HashSet<VatId> { Vat }, _ => { }, new WatchClock(TimeProvider.System));

    private static KeptWarmPlan? Read(LogBookRig rig)
    {
        using var reader = rig.Store.OpenReader();
        return PlanTable.WarmUps(reader).GetValueOrDefault(Vat);
    }
}
