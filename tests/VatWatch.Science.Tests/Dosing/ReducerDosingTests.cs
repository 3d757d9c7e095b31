using VatWatch.Science.Dosing;
using VatWatch.Science.Oxygen;

namespace VatWatch.Science.Tests.Dosing;

/// <summary>
/// Expected figures worked by hand from the electron balance (0.4122 g of thiourea dioxide, 0.6639 g of dithionite to 1 g of indigo; 3.379 to 6.757 g and
/// 5.441 g to 1 g of oxygen) and from Benson and Krause's oxygen in water. Doses go with the mass of dye and the volume.
/// </summary>
public sealed class ReducerDosingTests
{
    private static readonly ReducerDoseRequest Plain = new(ReducerKind.ThioureaDioxide, 200, 45, 125) { Excess = 1 };

    [Fact]
    public void Pure_indigo_by_theory()
    {
        Assert.Equal(51.53, Advice(Plain).Grams, 0.005);
        Assert.Equal(82.98, Advice(Plain with { Kind = ReducerKind.Dithionite }).Grams, 0.005);
        Assert.Equal(94.30, Advice(Plain with { Kind = ReducerKind.Dithionite, AgentAssay = 0.88 }).Grams, 0.005);
    }

    [Fact]
    public void Natural_indigo_with_an_excess_is_a_range_from_theory_up()
    {
        var advice = Advice(Plain with { DyeAssay = 0.40, Excess = 3 });
        Assert.Equal(61.84, advice.Grams, 0.005);
        Assert.Equal(61.84, advice.HighGrams, 0.005);
        Assert.Equal(61.84 / 3, advice.LowGrams, 0.005);
        Assert.Contains("40 % of the dye is indigo.", advice.Assumptions);
        Assert.Contains(advice.Assumptions, sentence => sentence.StartsWith("3 times what theory asks", StringComparison.Ordinal));
    }

    // A craft recipe takes equal weights of thiourea dioxide and indigo (trade page): 2.4 times theory on pure indigo; as sold 0.98 of it. A surface of 0.634 m across takes, by film theory
    // at 45 °C and 1.5 times 5.7 mg/L, 0.046 g of oxygen for each cm/h and hour over 100: 22 h at 0.3 to 1 and 2 h at 5 to 15 cm/h.
    [Fact]
    public void Without_an_excess_the_dose_is_the_trades_and_theory_is_the_floor()
    {
        var advice = Advice(Plain with { Excess = null });
        Assert.Equal(51.53 / 0.98, advice.LowGrams, 3.5);
        Assert.InRange(advice.Grams, 2.4 * 51.53 / 0.98 + 4, 2.4 * 51.53 / 0.98 + 12);
        Assert.Equal(advice.Grams, advice.HighGrams);
        Assert.Contains(advice.Assumptions, sentence => sentence.StartsWith("The dose is 2.4 times what theory asks", StringComparison.Ordinal));
        Assert.Equal(2.4 * 51.53, Advice(Plain with { Excess = null, AgentAssay = 1, FurtherOxygen = default(MassRange) }).Grams, 0.02);
    }

    // 125 L of water at 20 °C hold 1.137 g of oxygen.
    [Fact]
    public void Fresh_water_is_cleared_of_its_oxygen()
    {
        var water = new ReducerDoseRequest(ReducerKind.ThioureaDioxide, 125, 20, 0) { ClearOxygen = true, Excess = 1 };
        var advice = Advice(water);
        Assert.Equal(3.84, advice.LowGrams, 0.005);
        Assert.Equal(7.68, advice.HighGrams, 0.005);
        Assert.Equal(advice.HighGrams, advice.Grams);
        Assert.Contains(advice.Assumptions, sentence => sentence.StartsWith("1.14 g of oxygen is counted", StringComparison.Ordinal));
        Assert.Equal(6.18, Advice(water with { Kind = ReducerKind.Dithionite }).Grams, 0.01);

        var both = Advice(water with { DyeGrams = 125 });
        Assert.Equal(51.53 + 7.68, both.Grams, 0.01);
        Assert.Equal(51.53 + 3.84, both.LowGrams, 0.01);
    }

    // 2 h at 15 cm/h and 22 h at 1 cm/h through a round surface of 0.50 m at 45 °C without enhancement: 0.606 g of oxygen.
    [Fact]
    public void A_days_uptake_through_the_surface_is_added()
    {
        SurfaceHours[] day = [new(TransferVelocity.Exactly(15), 2), new(TransferVelocity.Exactly(1), 22)];
        var uptake = OxygenLoad.ThroughSurfacePerDay(day, Math.PI * 0.25 * 0.25, 45, enhancement: 1);
        var advice = Advice(Plain with { DyeGrams = 0, FurtherOxygen = uptake });
        Assert.Equal(2.05, advice.LowGrams, 0.005);
        Assert.Equal(4.09, advice.HighGrams, 0.006);
        Assert.Contains(advice.Assumptions, sentence => sentence.StartsWith("Extrapolated: 45 °C (113 °F) is hotter than the oxygen table", StringComparison.Ordinal));
        Assert.Equal(3.30, Advice(Plain with { Kind = ReducerKind.Dithionite, DyeGrams = 0, FurtherOxygen = uptake }).Grams, 0.005);
    }

    // 2 L of air at 20 °C hold 0.557 g of oxygen.
    [Fact]
    public void Air_carried_in_by_cloth_is_added()
    {
        var oxygen = OxygenLoad.InCarriedAirGrams(2, 20);
        var advice = Advice(Plain with { DyeGrams = 0, FurtherOxygen = new MassRange(oxygen, oxygen) });
        Assert.Equal(1.88, advice.LowGrams, 0.005);
        Assert.Equal(3.77, advice.HighGrams, 0.005);
    }

    // 10 g burnt by air eat 19.6 g of soda ash, 1.96 g to the gram; spent on dye 2.94 g to the gram.
    [Fact]
    public void The_alkali_it_eats_is_told()
    {
        var eaten = ReducerDosing.SodaAshEaten(ReducerKind.ThioureaDioxide, 10, 10)!.Value;
        Assert.Equal(19.6, eaten.LowGrams, 0.01);
        Assert.Equal(29.4, eaten.HighGrams, 0.02);
        Assert.Null(ReducerDosing.SodaAshEaten(ReducerKind.Fructose, 10, 10));
        Assert.Contains(Advice(Plain).Assumptions, sentence => sentence.Contains("of soda ash: the pH will fall", StringComparison.Ordinal));
    }

    // The trade's 1 : 2 : 3 of indigo, lime and fructose: common practice, no source. Theory 0.6869 g to 1 g of indigo, nominal.
    [Fact]
    public void A_sugar_vat_goes_by_the_ratio_and_names_its_lime()
    {
        var advice = Advice(new(ReducerKind.Fructose, 60, 50, 80) { DyeAssay = 0.5 });
        Assert.Equal(240, advice.Grams, 1e-9);
        Assert.Equal(0.6869 * 40, advice.LowGrams, 0.01);
        Assert.Contains(advice.Assumptions, sentence => sentence.StartsWith("With it goes slaked lime, 160 g (5.64 oz)", StringComparison.Ordinal));
        Assert.Contains(advice.Cautions, sentence => sentence.Contains("ruins wool, silk and hair", StringComparison.Ordinal));
        Assert.Equal(2 * 0.6869 * 40, Advice(new(ReducerKind.Fructose, 60, 50, 80) { DyeAssay = 0.5, Excess = 2 }).Grams, 0.01);
    }

    [Fact]
    public void The_first_portion_and_the_wait_are_the_trades()
    {
        var advice = Advice(Plain);
        Assert.Equal(advice.Grams / 3, advice.FirstPortionGrams, 1e-9);
        Assert.Equal((20, 40), (advice.Wait.LeastMinutes, advice.Wait.MostMinutes));
        Assert.InRange(advice.Wait.Minutes, 20, 40);
        Assert.Equal(0.8 * 10, Advice(Plain with { VolumeL = 10 }).FirstPortionGrams, 1e-9);
    }

    [Fact]
    public void Strong_cold_and_hot_vats_are_spoken_of()
    {
        Assert.Contains(Advice(Plain with { VolumeL = 10 }).Assumptions, sentence => sentence.Contains("more than vats usually hold", StringComparison.Ordinal));
        Assert.Contains(Advice(Plain with { TemperatureC = 20 }).Assumptions, sentence => sentence.Contains("acts slowly", StringComparison.Ordinal));
        Assert.Contains(Advice(Plain with { TemperatureC = 55 }).Assumptions, sentence => sentence.Contains("is lost faster", StringComparison.Ordinal));
        Assert.DoesNotContain(Advice(Plain).Assumptions, sentence => sentence.Contains("lost faster", StringComparison.Ordinal));
    }

    // From the international safety cards of the substances.
    [Theory]
    [InlineData("thiourea-dioxide", "heats itself")]
    [InlineData("dithionite", "on fire")]
    [InlineData("fructose", "lime blinds")]
    public void Each_substance_has_its_own_main_caution(string kind, string words)
    {
        var cautions = Advice(Plain with { Kind = ReducerKind.All.Single(one => one.Name == kind) }).Cautions;
        Assert.Contains("safety data sheet", cautions[0], StringComparison.Ordinal);
        Assert.Contains(cautions, sentence => sentence.Contains(words, StringComparison.Ordinal));
        Assert.Contains(cautions, sentence => sentence.Contains("acid", StringComparison.Ordinal));
        Assert.Contains(cautions, sentence => sentence.Contains("goggles", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(-1, 45, 100, 1, 2, "the volume is -1 L")]
    [InlineData(60, 140, 100, 1, 2, "the temperature is 140 °C (284 °F)")]
    [InlineData(60, 45, -100, 1, 2, "the dye is -100 g; wanted 0 g or more")]
    [InlineData(60, 45, 0, 1, 2, "neither dye nor oxygen was named")]
    [InlineData(60, 45, 100, 0, 2, "the strength of the dye is 0 %")]
    [InlineData(60, 45, 100, 1.4, 2, "the strength of the dye is 140 %; wanted above 0 % and up to 100 %")]
    [InlineData(60, 45, 100, 1, 0.5, "the excess is 0.5 times theory; wanted 1 to 20 times")]
    [InlineData(1, 45, 900, 1, 2, "the dye is 900 g (31.7 oz) in 1 L (0.26 gal)")]
    public void What_cannot_be_is_refused_with_what_was_seen(
        double volumeL, double temperatureC, double dyeGrams, double assay, double excess, string sentence)
    {
        var answer = ReducerDosing.Answer(new(ReducerKind.ThioureaDioxide, volumeL, temperatureC, dyeGrams) { DyeAssay = assay, Excess = excess });
        Assert.True(answer.IsRefused);
        Assert.StartsWith(sentence, answer.Refusal, StringComparison.Ordinal);
    }

    private static DoseAdvice Advice(ReducerDoseRequest request)
    {
        var answer = ReducerDosing.Answer(request);
        Assert.Null(answer.Refusal);
        return answer.Advice!;
    }
}
