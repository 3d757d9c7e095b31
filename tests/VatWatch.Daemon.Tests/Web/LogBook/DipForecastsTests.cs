using VatWatch.Conditions;
using VatWatch.Daemon.Web.LogBook;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Tests.Web.LogBook;

public sealed class DipForecastsTests
{
    [Theory]
    [InlineData(VatState.TooHot, 88.0, "No dip now: the liquor is at or above its limit of 120.2 °F")]
    [InlineData(VatState.Oxidised, 45.0, "No dip now: the vat is oxidised")]
    [InlineData(VatState.Unknown, null, "no good temperature")]
    public void No_dip_is_promised_to_a_vat_that_is_not_fit_for_one(VatState state, double? liquorC, string says)
    {
        var scenes = new Scenes();
        var vat = Scenes.Vat();
        var condition = new VatCondition { Vat = vat.Id, Stamp = scenes.Clock.Now(), State = state, Reasons = ["So it is."], TemperatureC = liquorC };
        Assert.Null(DipForecasts.For(new LiveVat(vat, [], condition, []), 900, null, DisplayUnits.Us, out var whyNot));
        Assert.Contains(says, whyNot, StringComparison.Ordinal);
    }
}
