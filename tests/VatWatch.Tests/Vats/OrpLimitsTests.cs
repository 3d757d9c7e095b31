namespace VatWatch.Tests.Vats;

public sealed class OrpLimitsTests
{
    private const string Usual = "Ag/AgCl 3 M KCl";

    private static readonly TemperatureBand Band = new(38, 48, 49);

    [Fact]
    public void Marks_follow_the_band_of_pH_by_the_model_of_the_midpoint()
    {
        var wool = OrpLimits.UsualMarks(ReducingAgent.ThioureaDioxide, new(9.5, 10), Band, Usual);
        var cotton = OrpLimits.UsualMarks(ReducingAgent.ThioureaDioxide, new(10.5, 11.5), Band, Usual);

        // The model's own figures for its thresholds: -615 to -631 mV from pH 9.5 to 10, and -660 mV at 11 (each ± 40 mV).
        Assert.InRange(wool.WeakMillivolts, -645, -600);
        Assert.InRange(cotton.WeakMillivolts, -690, -640);
        Assert.Equal(80, wool.OxidisedMillivolts - wool.WeakMillivolts);
    }

    [Fact]
    public void Without_a_band_of_pH_and_for_a_fermentation_vat_they_are_the_fixed_ones()
    {
        Assert.Equal((-660, -580), OrpLimits.UsualMarks(ReducingAgent.Dithionite, null, Band, Usual));
        Assert.Equal((-515, -430), OrpLimits.UsualMarks(ReducingAgent.Fermentation, new(9, 10), Band, Usual));
    }

    [Fact]
    public void They_are_against_the_electrode_of_the_vat()
    {
        // Saturated KCl lies about 10 mV below 3 M KCl at 43 °C (measurement reference): the same potential reads so much higher.
        var saturated = OrpLimits.UsualMarks(ReducingAgent.Dithionite, null, Band, "Ag/AgCl saturated KCl");
        Assert.InRange(saturated.WeakMillivolts, -660, -640);
    }
}
