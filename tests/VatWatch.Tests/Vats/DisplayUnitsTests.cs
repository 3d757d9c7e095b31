namespace VatWatch.Tests.Vats;

public sealed class DisplayUnitsTests
{
    [Theory]
    [InlineData(true, "says 85 °C as it does after power-up", "says 185 °F as it does after power-up")]
    [InlineData(true, "says -41.0 °C; wanted -40 to 125 °C", "says −41.8 °F; wanted −40 to 257 °F")]
    [InlineData(true, "moved from 44.0 to 51.5 °C, faster than 5 K/min", "moved from 111.2 to 124.7 °F, faster than 9 °F/min")]
    [InlineData(true, "above 49 °C (120 °F)", "above 49 °C (120 °F)")]
    [InlineData(true, "no reply within 2 s", "no reply within 2 s")]
    [InlineData(false, "says 85 °C", "says 85 °C")]
    public void Sentences_of_probes_are_told_in_the_units_of_whoever_reads(bool us, string sentence, string words) => Assert.Equal(words, new DisplayUnits(us).Words(sentence));

    // 1 lb is 453.59237 g exactly.
    [Theory]
    [InlineData(true, 907.18474, "2.00 lb")]
    [InlineData(true, 453.59237, "1.00 lb")]
    [InlineData(true, 425.24284, "15.00 oz")]
    [InlineData(false, 907.18474, "907 g")]
    [InlineData(false, 1250, "1.25 kg")]
    public void Goods_are_weighed_in_the_larger_unit_from_one_of_it_on(bool us, double grams, string words) => Assert.Equal(words, new DisplayUnits(us).Goods(grams));

    [Theory]
    [InlineData(3 * 3600, "3 h")]
    [InlineData(3 * 3600 + 59, "3 h")]
    [InlineData(2 * 3600 + 5 * 60, "2 h 05 min")]
    [InlineData(41 * 60, "41 min")]
    [InlineData(20, "20 s")]
    public void A_length_of_time_says_no_more_than_it_has(int seconds, string words) => Assert.Equal(words, DisplayUnits.Duration(TimeSpan.FromSeconds(seconds)));
}
