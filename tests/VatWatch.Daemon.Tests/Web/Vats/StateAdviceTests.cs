using VatWatch.Alarms.Rules.Heat;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.Vats;

namespace VatWatch.Daemon.Tests.Web.Vats;

public sealed class StateAdviceTests
{
    private readonly VatCondition _known = new Scenes().Ready().Feed.Vats[0].Condition with { TemperatureC = 44, Ph = 9.9, OrpMillivolts = -680 };
    private readonly VatDefinition _vat = new Scenes().Ready().Feed.Vats[0].Definition;

    [Fact]
    public void Nobody_is_told_to_open_a_hot_vat()
    {
        Assert.Equal(SafetyActions.TooHot, StateAdvice.For(VatState.TooHot, _known with { TemperatureC = 51 }, _vat));
        Assert.Equal(SafetyActions.Boiling, StateAdvice.For(VatState.TooHot, _known with { TemperatureC = 98 }, _vat));
        Assert.DoesNotContain("take the lid off", SafetyActions.TooHot, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void What_is_missing_is_what_the_advice_is_about()
    {
        Assert.Contains("While the temperature is unknown, switch the heater off", StateAdvice.For(VatState.Unknown, _known with { TemperatureC = null }, _vat), StringComparison.Ordinal);
        var withoutOrp = StateAdvice.For(VatState.Unknown, _known with { OrpMillivolts = null }, _vat);
        Assert.Contains("See to the ORP probe", withoutOrp, StringComparison.Ordinal);
        Assert.DoesNotContain("temperature", withoutOrp, StringComparison.Ordinal);
        Assert.Contains("see to the pH probe", StateAdvice.For(VatState.Unknown, _known with { Ph = null }, _vat), StringComparison.Ordinal);
        Assert.DoesNotContain("ORP", StateAdvice.For(VatState.Unknown, _known with { OrpMillivolts = null }, _vat with { Orp = null }), StringComparison.Ordinal);
    }

    [Fact]
    public void Cold_liquor_whose_trend_is_not_known_is_not_called_a_failure()
    {
        Assert.StartsWith("Whether it warms is not known yet", StateAdvice.For(VatState.TooCold, _known with { TemperatureRateKPerHour = null }, _vat), StringComparison.Ordinal);
        Assert.StartsWith("Check that the heater has power", StateAdvice.For(VatState.TooCold, _known with { TemperatureRateKPerHour = 0 }, _vat), StringComparison.Ordinal);
    }
}
