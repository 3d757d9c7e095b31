using VatWatch.Alarms;

namespace VatWatch.Tests.Alarms.Rules.Alkali;

/// <summary>Both sides of the band, 9.5 to 10.5 here, with a deadband of 0.1.</summary>
public sealed class AlkaliAlarmsTests
{
    [Theory]
    [InlineData(9.2, "alkali-low", "Madder Lane vat is short of alkali: pH 9.20, below pH 9.50.")]
    [InlineData(10.8, "alkali-high", "Madder Lane vat is too alkaline: pH 10.80, above pH 10.50.")]
    public void Enters_outside_the_band_after_the_dwell(double ph, string alarm, string text)
    {
        var vat = At(ph).Pass(890);
        Assert.Equal(AlarmState.Normal, vat.State(alarm));
        vat.Pass(12);
        Assert.Equal((AlarmState.Unacknowledged, AlarmPriority.Medium, text), (vat.State(alarm), vat.Status(alarm).Priority, vat.Status(alarm).Text.In(DisplayUnits.Us)));
    }

    [Theory]
    [InlineData(9.2, "alkali-low", 9.55, 9.65)]
    [InlineData(10.8, "alkali-high", 10.45, 10.35)]
    public void Returns_only_past_the_deadband(double ph, string alarm, double within, double past)
    {
        var vat = At(ph).Pass(902);
        vat.Condition = vat.Condition with { Ph = within };
        Assert.Equal(AlarmState.Unacknowledged, vat.Pass(900).State(alarm));
        vat.Condition = vat.Condition with { Ph = past };
        Assert.Equal(AlarmState.ReturnedUnacknowledged, vat.Pass(302).State(alarm));
    }

    [Fact]
    public void A_lost_ph_keeps_what_stands()
    {
        var vat = At(9.2).Pass(902);
        vat.Condition = vat.Condition with { Ph = null };
        vat.Pass(3600);
        Assert.Equal((AlarmState.Unacknowledged, "Madder Lane vat was short of alkali, and its pH cannot be read now."), (vat.State("alkali-low"), vat.Status("alkali-low").Text.In(DisplayUnits.Us)));
    }

    [Fact]
    public void Too_much_alkali_is_told_as_harm_to_wool_and_never_asks_for_acid()
    {
        var protein = new WatchedVat().Board.RationaleOf(new("alkali-high"))!;
        Assert.Contains("wool and silk", protein.Action, StringComparison.Ordinal);
        Assert.Contains("Never add acid", protein.Action, StringComparison.Ordinal);
        var cellulose = new WatchedVat(vat: WatchedVat.MadderLane() with { Fibre = Fibre.Cellulose }).Board.RationaleOf(new("alkali-high"))!;
        Assert.DoesNotContain("wool", cellulose.Action + cellulose.Consequence, StringComparison.OrdinalIgnoreCase);
    }

    private static WatchedVat At(double ph)
    {
        var vat = new WatchedVat();
        vat.Condition = vat.Condition with { Ph = ph };
        return vat;
    }
}
