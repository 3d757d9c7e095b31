using VatWatch.Science.Dosing;

namespace VatWatch.Science.Tests.Dosing;

/// <summary>
/// Doses checked against a table at 45 °C computed by a separate program (Python) for half this volume; doses go with the volume, so its grams are doubled.
/// The tolerance is the rounding of that printed table. Rules of dosing: common practice, no source, unless one is named.
/// </summary>
public sealed class AlkaliDosingTests
{
    private const double VolumeL = 250;
    private const double TableToVolume = 2;

    // Pure water: alkalinity 0, and a pH that means nothing for want of buffer.
    [Theory]
    [InlineData(10.0, 9)]
    [InlineData(10.5, 73)]
    public void Pure_water_takes_the_computed_dose(double target, double table)
    {
        var advice = Advice(Cotton(7, target) with { AlkalinityMeqPerLitre = 0 });
        CheckTable(table, advice.Grams);
    }

    [Theory]
    [InlineData(1, 8.0, 21, 125)]
    [InlineData(1, 9.0, 17, 112)]
    [InlineData(1, 9.5, 11, 93)]
    [InlineData(2, 8.0, 34, 183)]
    [InlineData(2, 9.0, 27, 159)]
    [InlineData(2, 9.5, 17, 126)]
    [InlineData(4, 8.0, 62, 314)]
    [InlineData(4, 9.0, 48, 264)]
    [InlineData(4, 9.5, 29, 197)]
    public void Known_alkalinity_gives_the_computed_dose(double meqPerLitre, double ph, double to10, double to10And5)
    {
        foreach (var (target, table) in new[] { (10.0, to10), (10.5, to10And5) })
        {
            var advice = Advice(Cotton(ph, target) with { AlkalinityMeqPerLitre = meqPerLitre });
            CheckTable(table, advice.Grams);
            Assert.InRange(advice.LowGrams, 0, advice.Grams);
            Assert.True(advice.HighGrams > advice.Grams);
        }
    }

    // Half the volume's 2 g/L given, then fallen: small figure by acid, large one by carbon dioxide.
    [Theory]
    [InlineData(8.0, 10.0, 369, 850)]
    [InlineData(9.0, 10.0, 296, 603)]
    [InlineData(9.5, 10.0, 183, 311)]
    [InlineData(10.0, 10.5, 520, 685)]
    public void A_logged_vat_that_fell_gives_the_computed_range(double ph, double target, double byAcid, double byDioxide)
    {
        var advice = Advice(Cotton(ph, target) with { SodaAshSoFarGrams = 2 * VolumeL });
        CheckTable(byAcid, advice.LowGrams);
        CheckTable(byDioxide, advice.HighGrams);
        Assert.Equal(advice.LowGrams, advice.Grams);
        Assert.Contains(advice.Assumptions, sentence => sentence.Contains("Work towards the small one", StringComparison.OrdinalIgnoreCase));
    }

    [Theory]
    [InlineData(null, 8.0)]
    [InlineData(1.0, 9.0)]
    [InlineData(4.0, 9.5)]
    public void Eleven_in_a_warm_vat_is_out_of_reach_of_soda_ash(double? meqPerLitre, double ph)
    {
        var refusal = Refusal(Cotton(ph, 11) with { AlkalinityMeqPerLitre = meqPerLitre });
        Assert.Contains("pH 11.0 at 45 °C (113 °F) is out of reach of soda ash", refusal, StringComparison.Ordinal);
        Assert.Contains("10 g/L", refusal, StringComparison.Ordinal);
    }

    // The separate program: 1100 g by acid and 1880 g by carbon dioxide in half this volume, with 2 g/L there: 10.8 and 17 g/L in all.
    [Fact]
    public void More_than_ten_grams_a_litre_in_all_is_refused_though_the_dose_alone_is_less()
    {
        var refusal = Refusal(Cotton(9.5, 10.5) with { SodaAshSoFarGrams = 2 * VolumeL });
        Assert.Contains("leave 10.8 g/L", refusal, StringComparison.Ordinal);
    }

    // Between the table's rows for 9.5 and 10.0 the way by acid comes below 10 g/L in all while the way by carbon dioxide is still above; 2 g/L are there.
    [Fact]
    public void Where_only_the_smaller_way_is_within_reach_the_large_figure_is_where_to_stop()
    {
        var advice = Advice(Cotton(9.68, 10.5) with { SodaAshSoFarGrams = 2 * VolumeL });
        Assert.Equal(8 * VolumeL, advice.HighGrams, 1e-6);
        Assert.Contains(advice.Assumptions, sentence => sentence.Contains("then refresh the liquor instead", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(8.0)]
    [InlineData(9.0)]
    [InlineData(9.5)]
    public void An_unknown_history_is_a_wide_range_from_soft_water_up_to_a_spent_vat(double ph)
    {
        var unknown = Advice(Cotton(ph, 10));
        var soft = Advice(Cotton(ph, 10) with { AlkalinityMeqPerLitre = 1 });
        var spent = Advice(Cotton(ph, 10) with { SodaAshSoFarGrams = 2 * VolumeL });
        Assert.Equal(soft.Grams, unknown.Grams, 1e-9);
        Assert.Equal(spent.HighGrams, unknown.HighGrams, 1e-9);
        Assert.Contains(unknown.Assumptions, sentence => sentence.StartsWith("The history of the liquor is not known", StringComparison.Ordinal));
    }

    // The spent vat that the large figure stands for is taken to hold 2 g/L, so 8 g/L more is the most.
    [Fact]
    public void An_unknown_history_whose_large_way_is_out_of_reach_stops_where_a_spent_vat_is_full()
    {
        var unknown = Advice(Cotton(9, 10.5));
        CheckTable(112, unknown.Grams);
        Assert.Equal(8 * VolumeL, unknown.HighGrams, 1e-6);
    }

    [Fact]
    public void Fresh_water_nobody_tested_lies_between_soft_and_hard()
    {
        var fresh = Advice(Cotton(8, 10) with { SodaAshSoFarGrams = 0 });
        CheckTable(21, fresh.Grams);
        CheckTable(62, fresh.HighGrams);
    }

    [Fact]
    public void The_waters_own_alkalinity_adds_to_what_was_logged()
    {
        var logged = Cotton(9, 10) with { SodaAshSoFarGrams = 2 * VolumeL };
        Assert.True(Advice(logged with { AlkalinityMeqPerLitre = 4 }).HighGrams > Advice(logged).HighGrams);
    }

    [Fact]
    public void The_first_portion_is_a_third_and_at_most_the_step()
    {
        var small = Advice(Cotton(9, 10) with { AlkalinityMeqPerLitre = 2 });
        Assert.Equal(small.Grams / 3, small.FirstPortionGrams, 1e-9);
        var large = Advice(Cotton(8, 10) with { SodaAshSoFarGrams = 2 * VolumeL });
        Assert.Equal(100 * TableToVolume, large.FirstPortionGrams, 1e-9);
        Assert.Equal((10, 15), (large.Wait.LeastMinutes, large.Wait.MostMinutes));
        Assert.InRange(large.Wait.Minutes, 10, 15);
    }

    [Fact]
    public void Without_a_fibre_the_careful_one_is_taken_and_said()
    {
        var advice = Advice(new(60, 45, 9, 10));
        Assert.Equal("Asked for: 60 L (15.9 gal) of liquor at 45 °C (113 °F), from pH 9.0 to pH 10.0, for protein fibre (wool, silk, hair).", advice.Assumptions[0]);
        Assert.StartsWith("The fibre was not said, so protein fibre", advice.Assumptions[1], StringComparison.Ordinal);
        Assert.Contains(advice.Cautions, sentence => sentence.Contains("harms wool, silk and hair", StringComparison.Ordinal));
        Assert.Contains("taken because no fibre was said", Refusal(new(60, 45, 9, 10.5)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(10.0, 10.1, "pH 10.1 is above pH 10.0")]
    [InlineData(9.5, 9.6, "pH 9.6 is above pH 9.5")]
    public void Protein_fibre_is_not_taken_above_its_limit(double limit, double target, string sentence)
    {
        var refusal = Refusal(new(60, 45, 9, target) { Fibre = FibreLimit.Protein(limit) });
        Assert.Contains(sentence, refusal, StringComparison.Ordinal);
        Assert.Contains("alkali damages such fibre", refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Between_the_limits_of_wool_and_silk_wool_is_named()
    {
        var request = new AlkaliDoseRequest(60, 45, 8.8, 9.8) { Fibre = FibreLimit.Protein() };
        Assert.Contains(Advice(request).Cautions, sentence => sentence.Contains("above the pH 9.5 that practice sets for wool", StringComparison.Ordinal));
        Assert.DoesNotContain(Advice(request with { TargetPh = 9.4 }).Cautions, sentence => sentence.Contains("practice sets for wool", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(10.2, 10)]
    [InlineData(10, 10)]
    public void A_liquor_at_or_above_the_wanted_pH_gets_nothing(double ph, double target)
    {
        var refusal = Refusal(Cotton(ph, target));
        Assert.Contains("there or above", refusal, StringComparison.Ordinal);
        Assert.Contains("Never bring it down with acid", refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void A_pH_above_what_the_log_can_give_is_said()
    {
        var advice = Advice(Cotton(10.6, 10.8) with { SodaAshSoFarGrams = 0.1 * VolumeL });
        Assert.Contains(advice.Assumptions, sentence => sentence.StartsWith("The pH is higher than the logged soda ash can give", StringComparison.Ordinal));
    }

    [Fact]
    public void A_pH_that_contradicts_the_alkalinity_is_refused_with_both()
    {
        var refusal = Refusal(Cotton(11.2, 11.4) with { AlkalinityMeqPerLitre = 1 });
        Assert.StartsWith("pH 11.2 does not go with an alkalinity of 1 meq/L; wanted at least", refusal, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(60.5, true)]
    [InlineData(60, false)]
    public void Nothing_is_weighed_out_for_a_liquor_hotter_than_the_tables(double temperatureC, bool isRefused) =>
        Assert.Equal(isRefused, AlkaliDosing.Answer(new(60, temperatureC, 8.5, 9.5) { AlkalinityMeqPerLitre = 2 }).IsRefused);

    [Theory]
    [InlineData(0, 45, 9, 10, 1, 0, "the volume is 0 L")]
    [InlineData(-20, 45, 9, 10, 1, 0, "the volume is -20 L")]
    [InlineData(double.NaN, 45, 9, 10, 1, 0, "the volume is NaN L")]
    [InlineData(60, 150, 9, 10, 1, 0, "the temperature is 150 °C (302 °F); wanted 0 °C (32 °F) to 60 °C (140 °F).")]
    [InlineData(60, 95, 9, 10, 1, 0, "the temperature is 95 °C (203 °F); wanted 0 °C (32 °F) to 60 °C (140 °F): switch the heater off")]
    [InlineData(90_000, 45, 9, 10, 1, 0, "the volume is 90000 L (23775 gal); wanted 0.1 L (0.03 gal) to 10000 L (2642 gal).")]
    [InlineData(60, 45, 5, 10, 1, 0, "the pH now is 5, where spent reducing agent gives off sulfur dioxide")]
    [InlineData(60, 45, 9.9, 10, 1, 0, "pH 9.9 and pH 10.0 are within the electrode's error of ±0.1 of each other")]
    [InlineData(60, 45, 0, 10, 1, 0, "the pH now is 0; wanted 3 to 14.")]
    [InlineData(60, 45, 9, 15, 1, 0, "the wanted pH is 15; wanted 7 to 13.")]
    [InlineData(60, 45, 9, 10, -2, 0, "the alkalinity is -2 meq/L")]
    [InlineData(60, 45, 9, 10, 1, -5, "the soda ash so far is -5 g")]
    [InlineData(60, 45, 9, 10, 1, 1e9, "the soda ash so far is 1000000000 g")]
    public void What_cannot_be_is_refused_with_what_was_seen(
        double volumeL, double temperatureC, double ph, double target, double alkalinity, double sodaAsh, string sentence)
    {
        var refusal = Refusal(new(volumeL, temperatureC, ph, target) { AlkalinityMeqPerLitre = alkalinity, SodaAshSoFarGrams = sodaAsh });
        Assert.StartsWith(sentence, refusal, StringComparison.Ordinal);
        Assert.Contains("wanted", refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_soda_ash_dose_names_the_sheet_goggles_water_first_and_acid()
    {
        var cautions = string.Join('\n', Advice(Cotton(7.5, 10)).Cautions);
        foreach (var word in new[] { "safety data sheet", "goggles", "Dissolve each portion in warm water first", "acid", "sulfur dioxide", "plug", "Scald", "rinse at once" })
            Assert.Contains(word, cautions, StringComparison.Ordinal);
    }

    // Figures from the whole range of the possible and beyond: an answer or a sentence, never an exception, and no dose that is not a number.
    [Fact]
    public void Whatever_is_asked_there_is_an_answer()
    {
        var random = new Random(7);
        for (var i = 0; i < 400; i++)
        {
            var request = new AlkaliDoseRequest(Pick(0, 300), Pick(-5, 105), Pick(2, 14.5), Pick(6, 14))
            {
                AlkalinityMeqPerLitre = random.Next(2) == 0 ? null : Pick(-1, 60),
                SodaAshSoFarGrams = random.Next(2) == 0 ? null : Pick(-10, 3000),
                Fibre = random.Next(2) == 0 ? null : FibreLimit.Cellulose(13),
            };
            var answer = AlkaliDosing.Answer(request);
            Assert.NotEqual(answer.Advice is null, answer.Refusal is null);
            if (answer.Advice is { } advice)
            {
                Assert.True(advice.LowGrams >= 0 && advice.LowGrams <= advice.Grams && advice.Grams <= advice.HighGrams && double.IsFinite(advice.HighGrams));
                Assert.InRange(advice.FirstPortionGrams, 0, advice.Grams);
            }
        }

        double Pick(double low, double high) => low + (high - low) * random.NextDouble();
    }

    private static AlkaliDoseRequest Cotton(double ph, double target) => new(VolumeL, 45, ph, target) { Fibre = FibreLimit.Cellulose() };

    private static DoseAdvice Advice(AlkaliDoseRequest request)
    {
        var answer = AlkaliDosing.Answer(request);
        Assert.Null(answer.Refusal);
        return answer.Advice!;
    }

    private static string Refusal(AlkaliDoseRequest request)
    {
        var answer = AlkaliDosing.Answer(request);
        Assert.Null(answer.Advice);
        return answer.Refusal!;
    }

    // Printed to whole grams, from 100 g on to three figures.
    private static void CheckTable(double table, double grams) => Assert.Equal(table, grams / TableToVolume, Math.Max(0.51, table * 0.0051));
}
