using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Tests.Figures;

public class HeatingAccountTests
{
    private static readonly VatRecord Night = new NightOfWarming().Record();

    [Fact]
    public void A_heater_probe_and_a_nameplate_give_the_energy()
    {
        var account = HeatingAccount.Of(Night, ProbeTrace.Of(Night))!;
        Assert.True(account is { IsRead: true, IsNameplate: true });
        // 1400 W by the configuration.
        Assert.Equal(1.4 * account.On.TotalHours, account.KilowattHours!.Value, 9);
    }

    [Fact]
    public void Without_a_heater_probe_the_time_is_judged_from_the_warming()
    {
        var vat = Night.Vat with { Probes = [.. Night.Vat.Probes.Where(probe => probe.Quantity != Quantity.Heater)] };
        var blind = Night with { Vat = vat, Measurements = [.. Night.Measurements.Where(one => one.Quantity != Quantity.Heater)] };
        blind = blind with { Conditions = ConditionTrace.Of(blind.Vat, blind.Units, blind.Measurements, []) };
        var account = HeatingAccount.Of(blind, ProbeTrace.Of(blind))!;
        Assert.False(account.IsRead);
        // On from 0.1 to 7.4 h but for cuts of 6 min and a gap of 25 min, of which nothing is claimed; the sense of the heater needs some minutes.
        Assert.InRange(account.On.TotalHours, 5.7, 7.3);
    }

    [Fact]
    public void Without_a_nameplate_the_learned_power_is_reckoned_with()
    {
        var unnamed = Night with { Vat = Night.Vat with { HeaterWatts = null } };
        unnamed = unnamed with { Conditions = ConditionTrace.Of(unnamed.Vat, unnamed.Units, unnamed.Measurements, []) };
        var account = HeatingAccount.Of(unnamed, ProbeTrace.Of(unnamed))!;
        Assert.False(account.IsNameplate);
        // The night is made with 5.6 K/h in 151.4 L of water, 4.18 kJ/(L·K): 985 W.
        Assert.InRange(account.Watts!.Value, 985 * 0.85, 985 * 1.15);
    }

    [Fact]
    public void With_nothing_that_tells_of_the_heater_there_is_no_account()
    {
        var record = Logs.Liquor([(0, 40), (1, 41)]);
        Assert.Null(HeatingAccount.Of(record, ProbeTrace.Of(record)));
    }
}
