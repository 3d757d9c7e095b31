using VatWatch.Conditions;
using VatWatch.Plans.Warm;
using VatWatch.Tests.Conditions;

namespace VatWatch.Tests.Plans.Warm;

public sealed class LiveWarmPlanTests
{
    [Fact]
    public void The_learned_heat_answers_when_to_switch_on()
    {
        var vat = new ScriptedVat { HeaterOn = true };
        vat.Run(180);
        vat.HeaterOn = false;
        var condition = vat.Run(180);
        var (targetC, ready) = (vat.Vat.Temperature.LowC + 4, condition.Stamp.Utc.AddHours(6));

        var (_, plan, refused) = LiveWarmPlan.Of(vat.Vat, condition, SeenHeat.Nothing, ready, targetC, null, DisplayUnits.Si, TimeZoneInfo.Utc);

        Assert.Null(refused);
        vat.Run((plan!.SwitchOn - condition.Stamp.Utc).TotalMinutes);
        vat.HeaterOn = true;
        vat.Run((ready - plan.SwitchOn).TotalMinutes);
        Assert.Equal(targetC, vat.LiquorC, 0.4);
    }

    /// <summary>The vat loses 4 W/K with its lid and 14 W/K without; it was seen cooling with either, and the lid is off now.</summary>
    [Fact]
    public void A_lid_that_is_off_does_not_count_for_the_night_and_what_it_costs_is_said()
    {
        var vat = new ScriptedVat { HeaterOn = true };
        vat.Run(180);
        vat.HeaterOn = false;
        vat.Run(180);
        vat.Assessor.Note(new VatAct(VatActKind.LidOff, vat.Stamp));
        vat.LossWPerK = 14;
        var condition = vat.Run(240);
        var (heat, plan, _) = LiveWarmPlan.Of(vat.Vat, condition, SeenHeat.Nothing, condition.Stamp.Utc.AddHours(9), vat.Vat.Temperature.LowC + 4, null, DisplayUnits.Si, TimeZoneInfo.Utc);
        Assert.True(heat!.LidIsOff);
        Assert.Equal(4, heat.LossWPerK, 1.5);
        Assert.Equal(14, heat.OpenLossWPerK, 3.0);
        Assert.True(plan!.WithoutLid > 1.1 * (plan.SwitchOff - plan.SwitchOn));
    }
}
