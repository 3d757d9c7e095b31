using VatWatch.Plans.Warm;

namespace VatWatch.Tests.Plans.Warm;

/// <summary>Case D of the heat-balance reference: 125 L, 535,226 J/K, 3.15 W/K, 1440 W, room 20 °C; 18 to 46 °C takes 10,691.25 s (its section 12).</summary>
public sealed class WarmPlannerTests
{
    private static readonly DateTimeOffset Evening = new(2031, 3, 14, 21, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset Nine = new(2031, 3, 15, 9, 0, 0, TimeSpan.Zero);
    private static readonly VatHeat CaseD = ReferenceVat.Heat;

    private static readonly VatDefinition Vat = ReferenceVat.From(38);

    /// <summary>A room that is as warm by night as by day, so that the reference's figures hold.</summary>
    private static readonly RoomByHour Even = new(0);

    [Fact]
    public void The_heater_goes_on_as_long_before_as_the_reference_takes()
    {
        // Liquor at 18 °C in a room that keeps it there: nothing cools before, so it is the reference's time and its 1440 W for 2.970 h = 4.277 kWh.
        var (plan, refused) = Planner(CaseD with { RoomC = 18, RoomIsMeasured = true }).Plan(new(Nine, 46, Evening, 18));
        Assert.Null(refused);
        var hours = Hours(1440, 3.15, 18, 18, 46);
        Assert.Equal(hours, (plan!.SwitchOff - plan.SwitchOn).TotalHours, 0.001);
        Assert.Equal(hours, (Nine - plan.SwitchOn).TotalHours, 0.001);
        Assert.Equal(1.44 * hours, plan.KilowattHours, 0.01);
        Assert.Equal(Evening.AddHours(hours), plan.Earliest, TimeSpan.FromSeconds(5));
    }

    [Fact]
    public void The_time_of_the_reference_itself_comes_out_for_a_vat_switched_on_at_once()
    {
        // 10,691.25 s at 1440 W are 4.2765 kWh; the wish is that long ahead, so the heater is due now and the room's 20 °C holds throughout.
        var (plan, _) = Planner(CaseD).Plan(new(Evening.AddSeconds(10_692), 46, Evening, 18));
        Assert.Equal(10_691.25, (plan!.SwitchOff - plan.SwitchOn).TotalSeconds, 1.0);
        Assert.Equal(4.2765, plan.KilowattHours, 0.001);
        Assert.Equal(Evening, plan.SwitchOn, TimeSpan.FromSeconds(2));
    }

    [Fact]
    public void Warm_liquor_cools_first()
    {
        // By hand, with a = 3.15/535,226 per s: from 40 °C in a room of 20 °C it is at 20 + 20·exp(-a·t) when the heater goes on.
        var plan = Planner(CaseD).Plan(new(Nine, 46, Evening, 40)).Plan!;
        var coolsFor = plan.SwitchOn - Evening;
        Assert.Equal(20 + 20 * Math.Exp(-3.15 / 535_226 * coolsFor.TotalSeconds), plan.SwitchOnC, 0.01);
        Assert.Equal(Hours(1440, 3.15, 20, plan.SwitchOnC, 46), (Nine - plan.SwitchOn).TotalHours, 0.001);
        Assert.InRange(plan.SwitchOnC, 34, 38);
    }

    [Fact]
    public void The_safe_start_is_earlier_by_the_slowest_plausible_warm_up()
    {
        var plan = Planner(CaseD).Plan(new(Nine, 46, Evening, 18)).Plan!;
        Assert.True(plan.LatestSafe < plan.SwitchOn);
        Assert.True(plan.ReadyEarly < Nine && Nine < plan.ReadyLate);
        Assert.Equal((plan.ReadyLate!.Value - Nine).TotalMinutes, (plan.SwitchOn - plan.LatestSafe!.Value).TotalMinutes, 2.0);
        Assert.InRange(plan.KilowattHours, plan.KilowattHoursLow, plan.KilowattHoursHigh);
    }

    /// <summary>Two warm-ups of 500 W against 10 W/K: at 46 °C they gain 240 W, of which a colder room and weaker mains (34 W at 2.4 deviations) take a seventh.</summary>
    [Fact]
    public void A_heater_that_hardly_keeps_up_begins_earlier_and_says_by_how_much()
    {
        double At(double hours) => 20 + 50 - 36 * Math.Exp(-10 * hours * 3600 / 535_226);
        var seen = SeenWarmUp.In(Enumerable.Range(0, 60).Where(i => i is < 25 or > 30).Select(i => (Evening.AddDays(-1).AddMinutes(15 * i), At(0.25 * (i % 31)))));
        Assert.Equal(2, seen.Count);
        var plan = Planner(CaseD with { PowerW = 500, LossWPerK = 10 }, seen).Plan(new(Nine, 46, Evening, 36)).Plan!;
        Assert.InRange(plan.Ahead.TotalMinutes, 10, 45);
        Assert.Equal((Nine - plan.SwitchOff).TotalMinutes, plan.Ahead.TotalMinutes, 10.0);
        Assert.True(plan.ReadyEarly < plan.SwitchOff && plan.ReadyLate < Nine.AddMinutes(30));
        Assert.Equal(TimeSpan.Zero, Planner(CaseD).Plan(new(Evening.AddSeconds(10_692), 46, Evening, 18)).Plan!.Ahead);
    }

    [Fact]
    public void A_warm_up_without_a_lid_takes_as_long_as_the_open_loss_wants()
    {
        var wish = new WarmWish(Nine, 46, Evening, 18);
        var plan = Planner(CaseD with { LidIsOff = true }).Plan(wish).Plan!;
        Assert.Equal(Hours(1440, 3.15, 20, plan.SwitchOnC, 46), (plan.SwitchOff - plan.SwitchOn).TotalHours, 0.01);
        Assert.Equal(Hours(1440, 11, 20, plan.SwitchOnC, 46), plan.WithoutLid!.Value.TotalHours, 0.01);
        Assert.Null(Planner(CaseD with { LidIsOff = true, PowerW = 280 }).Plan(wish with { LiquorC = 40 }).Plan!.WithoutLid);
        Assert.Null(Planner(CaseD).Plan(wish).Plan!.WithoutLid);
    }

    [Fact]
    public void A_heater_left_on_meets_the_limit_after_the_target()
    {
        var plan = Planner(CaseD).Plan(new(Nine, 46, Evening, 18)).Plan!;
        Assert.InRange((plan.LimitEarly!.Value - Nine).TotalMinutes, 5, 25); // 46 to 49 °C at 9.1 K/h takes 20 min, less with the stronger heater
    }

    [Fact]
    public void A_wish_that_comes_too_soon_is_told_the_earliest()
    {
        var (plan, refused) = Planner(CaseD).Plan(new(Evening.AddHours(2), 46, Evening, 18));
        Assert.Null(plan);
        Assert.StartsWith("Case D cannot be at 46.0 °C by 23:00: it is at 18.0 °C, and switched on now it is ready at about 23:58 (", refused, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(49, "49.0 °C is not below the limit of Case D, 49.0 °C")]
    [InlineData(60, "60.0 °C is not below the limit of Case D")]
    public void A_wish_at_the_limit_is_refused(double targetC, string words) =>
        Assert.StartsWith(words, Planner(CaseD).Plan(new(Nine, targetC, Evening, 18)).Refused, StringComparison.Ordinal);

    [Fact]
    public void A_heater_nobody_told_of_is_asked_for() =>
        Assert.Contains("say its power", Planner(VatHeat.Of(Vat, null, null)).Plan(new(Nine, 45, Evening, 18)).Refused, StringComparison.Ordinal);

    [Fact]
    public void A_weak_heater_is_told_where_it_levels_off() =>
        Assert.Contains("levels off at about 36.0 °C in a room of 20.0 °C", Planner(CaseD with { PowerW = 160, PowerSigmaW = 5, LossWPerK = 10 }).Plan(new(Nine, 45, Evening, 18)).Refused, StringComparison.Ordinal);

    [Fact]
    public void The_day_after_tomorrow_is_too_far_ahead() =>
        Assert.Contains("48 h ahead", Planner(CaseD).Plan(new(Evening.AddHours(49), 45, Evening, 18)).Refused, StringComparison.Ordinal);

    [Fact]
    public void Warm_ups_that_took_longer_than_the_balance_says_lengthen_the_next()
    {
        // The last warm-up went from 20 to 44 °C at 6 K/h: 4 h, where the balance of case D gives 2.53 h.
        var seen = SeenWarmUp.In(Enumerable.Range(0, 20).Select(i => (Evening.AddDays(-1).AddMinutes(15 * i), 17 + 1.5 * i)));
        Assert.Single(seen);
        var took = 24 / 6.0 / Hours(1440, 3.15, 20, 20, 44);
        var plain = Planner(CaseD).Plan(new(Evening.AddHours(11), 44, Evening, 20)).Plan!;
        var learned = Planner(CaseD, seen).Plan(new(Evening.AddHours(11), 44, Evening, 20)).Plan!;
        Assert.Equal(took, (learned.SwitchOff - learned.SwitchOn) / (plain.SwitchOff - plain.SwitchOn), 0.02);
    }

    [Fact]
    public void A_warm_up_that_covers_only_a_part_leaves_the_rest_to_the_balance()
    {
        // Seen from 32 to 44 °C, twice as slow as the balance of case D; what it does not cover, 20 to 32 °C, is held to its lowest third.
        double At(double hours) => 20 + 1440 / 3.15 - (20 + 1440 / 3.15 - 30) * Math.Exp(-3.15 * hours * 1800 / 535_226);
        var seen = SeenWarmUp.In(Enumerable.Range(0, 15).Select(i => (Evening.AddDays(-1).AddMinutes(15 * i), At(0.25 * i))));
        var plan = Planner(CaseD, seen).Plan(new(Evening.AddHours(11), 40, Evening, 20)).Plan!;
        // A little less than twice: the balance takes the slowness for a weaker heater, against whose power the same losses weigh more as it warms.
        Assert.Equal(2 * Hours(1440, 3.15, 20, 20, 40), (plan.SwitchOff - plan.SwitchOn).TotalHours, 0.06);
    }

    [Fact]
    public void A_vat_that_cools_faster_than_the_balance_says_starts_from_lower()
    {
        // The balance of case D lets 40 °C fall by 0.42 K/h in its room of 20 °C; what is seen is three times that, and sure.
        SeenHeat Falling(double kPerHour) => new([], new SeenCooling(kPerHour, 0.02, 40)) { Room = Even };
        double Start(SeenHeat seen) => new WarmPlanner(Vat, CaseD, DisplayUnits.Si, TimeZoneInfo.Utc, seen).Plan(new(Nine, 45, Evening, 40)).Plan!.SwitchOnC;
        Assert.Equal(Start(SeenHeat.Nothing with { Room = Even }), Start(Falling(-20 * 3.15 * 3600 / 535_226)), 0.01);
        Assert.InRange(Start(SeenHeat.Nothing with { Room = Even }) - Start(Falling(-1.27)), 4, 10);
    }

    [Fact]
    public void A_thermostat_that_was_seen_is_told_what_to_be_set_to() =>
        Assert.Equal(45, Planner(CaseD with { ThermostatC = 42 }).Plan(new(Nine, 45, Evening, 18)).Plan!.SetToC);

    [Fact]
    public void A_vat_that_stays_warm_enough_is_not_heated_before()
    {
        var plan = Planner(CaseD).Plan(new(Evening.AddMinutes(30), 40, Evening, 44)).Plan!;
        Assert.Equal(TimeSpan.Zero, plan.SwitchOff - plan.SwitchOn);
        Assert.Equal(0, plan.KilowattHours);
    }

    private static WarmPlanner Planner(VatHeat heat, IReadOnlyList<SeenWarmUp>? seen = null) => new(Vat, heat, DisplayUnits.Si, TimeZoneInfo.Utc, new(seen ?? [], null) { Room = Even });

    /// <summary>Equation 3 of the reference, written out anew.</summary>
    private static double Hours(double watts, double loss, double room, double from, double to)
    {
        var end = room + watts / loss;
        return 535_226 / loss * Math.Log((end - from) / (end - to)) / 3600;
    }
}
