using VatWatch.Charts.Traces;
using VatWatch.Conditions;

namespace VatWatch.Charts.Tests.Traces;

public class ConditionTraceTests
{
    private static readonly VatRecord Morning = MorningOfDips.Record();

    [Fact]
    public void There_is_a_look_a_minute_and_one_at_the_end()
    {
        // 8 h are 480 minutes: after each of them, and at the last reading.
        Assert.Equal(481, Morning.Conditions.Count);
        Assert.Equal(NightOfWarming.Start.AddMinutes(1), Morning.Conditions[0].Stamp.Utc);
        Assert.Equal(Morning.To, Morning.Conditions[^1].Stamp.Utc);
    }

    [Fact]
    public void The_same_record_gives_the_same_conditions()
    {
        var again = MorningOfDips.Record().Conditions;
        Assert.Equal(Morning.Conditions.Select(Told), again.Select(Told));
    }

    private static (VatState, string, double?, double?) Told(VatCondition condition) =>
        (condition.State, string.Join('|', condition.Reasons), condition.Margin?.Millivolts, condition.Heat?.Loss.WattsPerKelvin);

    [Fact]
    public void A_dip_that_was_told_makes_the_vat_rest_at_once()
    {
        VatState At(double hours) => Morning.Conditions.Last(one => one.Stamp.Utc <= NightOfWarming.Start.AddHours(hours)).State;

        Assert.Equal(VatState.Ready, At(3.98));
        Assert.Equal(VatState.Resting, At(4.1));
        Assert.Equal(VatState.Ready, At(4.95));
    }

    [Fact]
    public void A_withdrawn_entry_did_not_happen()
    {
        var withdrawn = MorningOfDips.Entries.Select(entry => entry with { Withdrawn = Morning.To });
        var bare = MorningOfDips.Bare();
        var first = ConditionTrace.Of(bare.Vat, bare.Units, bare.Measurements, withdrawn);
        Assert.Equal(ConditionTrace.Of(bare.Vat, bare.Units, bare.Measurements, []).Select(Told), first.Select(Told));
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(24, 1)]
    [InlineData(48, 2)]
    [InlineData(14 * 24, 14)]
    public void A_longer_span_is_looked_at_less_often(double hours, double minutes) =>
        Assert.Equal(TimeSpan.FromMinutes(minutes), ConditionTrace.Step(TimeSpan.FromHours(hours)));

    [Fact]
    public void Nothing_measured_gives_no_conditions() => Assert.Empty(ConditionTrace.Of(NightOfWarming.Vat, DisplayUnits.Si, [], MorningOfDips.Entries));
}
