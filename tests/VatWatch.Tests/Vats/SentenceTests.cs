namespace VatWatch.Tests.Vats;

public sealed class SentenceTests
{
    [Fact]
    public void One_sentence_is_read_in_either_system_of_units()
    {
        var sentence = new Sentence($"Madder Lane vat is too hot: {49.61:°C}, limit {48.8889:°C}, rising by {2.5:K/h}, {3:K} over; {150:L} at {9.876:pH}, {-712.4:mV}.");
        Assert.Equal("Madder Lane vat is too hot: 121.3 °F, limit 120.0 °F, rising by 4.5 °F/h, 5.4 °F over; 39.6 gal at pH 9.88, −712 mV.", sentence.In(DisplayUnits.Us));
        Assert.Equal("Madder Lane vat is too hot: 49.6 °C, limit 48.9 °C, rising by 2.5 °C/h, 3.0 °C over; 150 L at pH 9.88, −712 mV.", sentence.In(DisplayUnits.Si));
    }

    [Fact]
    public void What_is_kept_comes_back_as_it_was()
    {
        var sentence = new Sentence($"It is at {44.5:°C}.");
        Assert.Equal("It is at ⟨44.5 °C⟩.", sentence.Stored);
        Assert.Equal(sentence, Sentence.Parse(sentence.Stored));
        Assert.Equal("It was at 112.1 °F.", Sentence.Parse("It was at 112.1 °F.").In(DisplayUnits.Si));
    }

    [Fact]
    public void What_a_probe_told_in_degrees_is_written_out_for_whoever_reads()
    {
        var told = new Sentence($"Probe liquor: {Sentence.Told("it shows 85 °C as after power-up, ⟨1 °C⟩")}.");
        Assert.Equal("Probe liquor: it shows 185.0 °F as after power-up, <33.8 °F>.", told.In(DisplayUnits.Us));
        Assert.Equal("wanted −40.0 °F to 257.0 °F", Sentence.Told("wanted -40 to 125 °C").In(DisplayUnits.Us));
        Assert.Equal("above 49 °C (120 °F)", Sentence.Told("above 49 °C (120 °F)").In(DisplayUnits.Us));
    }

    [Fact]
    public void Foreign_words_cannot_hold_a_number_to_be_turned()
    {
        const string foreign = "the probe says ⟨1 °C⟩ {0} %s";
        Sentence plain = foreign;
        Assert.Equal("the probe says <1 °C> {0} %s", plain.In(DisplayUnits.Us));
        Assert.Equal("Fault: the probe says <1 °C> {0} %s.", new Sentence($"Fault: {foreign}.").In(DisplayUnits.Us));
    }

    [Fact]
    public void Pieces_keep_their_numbers()
    {
        var piece = new Sentence($"{48:°C} now");
        Assert.Equal("All is well: 118.4 °F now. Look again at 08:30.", (new Sentence($"All is well: {piece}.") + new Sentence($"Look again at {new TimeOnly(8, 30):HH:mm}.")).In(DisplayUnits.Us));
        Assert.Equal("It shows pH 9.50, on and unknown.", new Sentence($"It shows {Sentence.Of(Quantity.Ph, 9.5)}, {Sentence.Of(Quantity.Heater, 1)} and {double.NaN:°C}.").ToString());
    }
}
