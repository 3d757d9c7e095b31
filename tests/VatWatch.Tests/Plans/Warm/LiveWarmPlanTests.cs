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
}
