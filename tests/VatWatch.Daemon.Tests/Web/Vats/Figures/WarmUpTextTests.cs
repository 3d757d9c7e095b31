using VatWatch.Conditions.Heating;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;

namespace VatWatch.Daemon.Tests.Web.Vats.Figures;

public sealed class WarmUpTextTests
{
    private static readonly Stamp Now = new(Scenes.Start, TimeSpan.FromHours(5), true);
    private static readonly LocalClock Clock = new(TimeZoneInfo.Utc, Now);
    private readonly VatCondition _plain = new Scenes().Ready().Feed.Vats[0].Condition with { Stamp = Now, WarmUp = null };
    private readonly WarmUp _warmUp = new()
    {
        Since = Now.Plus(-TimeSpan.FromHours(2)),
        WasEntered = true,
        ReadyBy = Scenes.Start.AddHours(3),
        StartC = 20,
        ExpectedRiseK = new(6, 10),
        RiseK = 7.5,
    };

    [Fact]
    public void What_is_expected_stands_beside_what_is_seen() => Assert.Equal(
        $"Warm-up begun {Clock.At(Now.Utc.AddHours(-2))}, to be ready by {Clock.At(Now.Utc.AddHours(3))}: 26.0 °C to 30.0 °C is expected by now, 27.5 °C is seen.",
        WarmUpText.Of(_plain with { WarmUp = _warmUp }, DisplayUnits.Si, Clock));

    [Fact]
    public void Slow_and_late_are_said()
    {
        var text = WarmUpText.Of(
            _plain with { WarmUp = _warmUp with { SlowSince = Now.Plus(-TimeSpan.FromMinutes(30)), Ready = new(TimeSpan.FromHours(4), TimeSpan.FromHours(5), null) } }, DisplayUnits.Us, Clock);
        Assert.Contains("it has risen less than half of the least that is plausible", text, StringComparison.Ordinal);
        Assert.EndsWith("By the forecast it will not be ready in time.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Before_the_first_mean_nothing_is_claimed()
    {
        Assert.EndsWith("how it goes is not known yet.", WarmUpText.Of(_plain with { WarmUp = _warmUp with { StartC = null } }, DisplayUnits.Us, Clock), StringComparison.Ordinal);
        Assert.Null(WarmUpText.Of(_plain, DisplayUnits.Us, Clock));
    }

    [Fact]
    public void A_probe_in_the_air_is_noticed_with_a_warm_up_or_a_heater_probe()
    {
        var vat = Scenes.Vat() with { Probes = [.. Scenes.Vat().Probes.Where(probe => probe.Quantity != Quantity.Heater)] };
        Assert.True(WarmUpText.IsBlindToAProbeInAir(VatState.TooCold, _plain, vat));
        Assert.False(WarmUpText.IsBlindToAProbeInAir(VatState.TooCold, _plain with { WarmUp = _warmUp }, vat));
        Assert.False(WarmUpText.IsBlindToAProbeInAir(VatState.Ready, _plain, vat));
        Assert.False(WarmUpText.IsBlindToAProbeInAir(VatState.TooCold, _plain, vat with { Probes = [vat.Probes[0] with { Quantity = Quantity.Heater }] }));
    }
}
