using VatWatch.Science.Dosing;

namespace VatWatch.Science.Tests.Dosing;

public sealed class DoseFactorTests
{
    // Precisions of independent normal readings add up (Gauss, Theoria motus, 1809): 1/0.6² + 3/0.15² is 136.11 and its root 11.667.
    [Fact]
    public void Precisions_add_up()
    {
        var factor = DoseFactor.Untried(0.6);
        for (var i = 0; i < 3; i++)
            factor = factor.Learn(150, 100, 0.15);

        Assert.Equal(1 / 11.667, factor.LogSigma, 1e-5);
        Assert.Equal(3, factor.Doses);
        Assert.Equal(Math.Log(1.5) * (133.33 / 136.11), factor.LogMean, 1e-4);
    }

    // 80 % of a normal lies within 1.2816 standard deviations (tables of the normal distribution).
    [Fact]
    public void The_range_of_80_percent_is_even_on_a_logarithmic_scale()
    {
        var range = new DoseFactor(Math.Log(2), 0.3, 3).Range(100, 0.4);
        Assert.Equal(200 * Math.Exp(1.2816 * 0.5), range.HighGrams, 1e-9);
        Assert.Equal(200 * 200 / range.HighGrams, range.LowGrams, 1e-9);
    }

    [Theory]
    [InlineData(0.5, 2, 1.3)]
    [InlineData(1.9, 0.7, 0.7)]
    [InlineData(1, 1.1, 3)]
    public void The_order_of_doses_makes_no_difference_to_what_they_teach(double first, double second, double third)
    {
        double[] ratios = [first, second, third];
        static DoseFactor Learn(IEnumerable<double> ratios) => ratios.Aggregate(DoseFactor.Untried(0.6), (factor, ratio) => factor.Learn(100 * ratio, 100, 0.2));
        Assert.Equal(Learn(ratios).LogMean, Learn(ratios.AsEnumerable().Reverse()).LogMean, 1e-9);
    }

    [Fact]
    public void An_unseen_part_counts_half_beside_twice_the_known()
    {
        var factor = new DoseFactor(Math.Log(1.6), 0.1, 2).Dilute(0.5);
        Assert.Equal(1.3, factor.Times, 1e-9);
        Assert.Equal(0.1 * 0.5 * 1.6 / 1.3, factor.LogSigma, 1e-9);
    }

    [Fact]
    public void A_vat_that_has_taught_enough_gets_the_low_end_at_once_and_others_a_third()
    {
        static double First(int doses) => AlkaliDosing.Answer(new AlkaliDoseRequest(60, 45, 9.2, 9.8)
        {
            Fibre = FibreLimit.Cellulose(),
            CarbonateMmolPerLitre = 10,
            Factor = new(0, 0.1, doses),
        }).Advice is { } advice ? advice.FirstPortionGrams / (doses < 3 ? advice.Grams / 3 : advice.LowGrams) : 0;

        Assert.Equal(1, First(2), 1e-9);
        Assert.Equal(1, First(3), 1e-9);
    }
}
