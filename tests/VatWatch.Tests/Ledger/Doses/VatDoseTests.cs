using CsCheck;
using VatWatch.Ledger;
using VatWatch.Ledger.Doses;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Ledger.Doses;

public sealed class VatDoseTests
{
    [Fact]
    public void Without_past_doses_it_is_theory_and_says_so()
    {
        var dose = VatDose.SodaAsh(new AnsweringVat().At(1), new AnsweringVat().Balance(1));
        Assert.Equal(dose.Grams!.Value, dose.Answer.Advice!.TheoryGrams!.Value, 1e-9);
        Assert.Equal(0, dose.PastDoses);
        Assert.Contains(dose.Answer.Advice.Assumptions, line => line.StartsWith("By theory it would be", StringComparison.Ordinal));
        Assert.True(dose.HighGrams > 1.6 * dose.Grams);
    }

    [Fact]
    public void Three_doses_that_took_twice_theory_make_the_next_more_than_theory_and_narrow()
    {
        var vat = new AnsweringVat();
        for (var day = 0; day < 3; day++)
        {
            vat.Worked(24 * day + 1, 9.2, -630);
            var theory = VatDose.SodaAsh(vat.At(24 * day + 2), vat.Balance(24 * day + 2), 9.6).Answer.Advice!.TheoryGrams!.Value;
            vat.Dose(24 * day + 2, Material.SodaAsh, 2 * theory, 0.4);
        }

        vat.Worked(73, 9.2, -630);
        var dose = VatDose.SodaAsh(vat.At(74), vat.Balance(74), 9.6);
        Assert.Equal(3, dose.PastDoses);
        // Not quite twice: soda ash that the log book knows counts for more of the liquor each day.
        Assert.InRange(dose.Grams!.Value / dose.Answer.Advice!.TheoryGrams!.Value, 1.3, 2);
        Assert.True(dose.HighGrams - dose.LowGrams < 0.5 * dose.Grams);
        Assert.Contains(dose.Answer.Advice.Assumptions, line => line.StartsWith("It rests on 3 past doses of this vat", StringComparison.Ordinal));
        Assert.Contains(vat.Balance(74).Alkalinity.RestsOn, line => line.StartsWith("By 3 past doses this vat takes", StringComparison.Ordinal));
    }

    [Fact]
    public void Reducing_agent_learns_from_the_potential()
    {
        var vat = new AnsweringVat();
        for (var day = 0; day < 3; day++)
            vat.Worked(24 * day + 1, 9.8, -630).Dose(24 * day + 2, Material.ReducingAgent, 90, -50);

        vat.Worked(73, 9.8, -630);
        var dose = VatDose.Reducer(vat.At(74), vat.Balance(74), -680);
        Assert.Equal(3, dose.PastDoses);
        Assert.InRange(dose.Grams!.Value, 86, 94);
        Assert.True(dose.HighGrams - dose.LowGrams < 0.5 * dose.Grams);
    }

    [Fact]
    public void A_dose_with_something_else_beside_it_teaches_nothing()
    {
        var vat = new AnsweringVat().Worked(1, 9.2, -630).Dose(2, Material.SodaAsh, 100, 0.4);
        vat.Book.Added(2.05, Material.Water, 5);
        Assert.Equal(0, vat.Balance(10).SodaAshFactor.Doses);
        Assert.Equal(1, new AnsweringVat().Worked(1, 9.2, -630).Dose(2, Material.SodaAsh, 100, 0.4).Balance(10).SodaAshFactor.Doses);
    }

    [Fact]
    public void A_vat_that_is_made_anew_begins_to_learn_again()
    {
        var vat = new AnsweringVat().Worked(1, 9.2, -630).Dose(2, Material.SodaAsh, 100, 0.4);
        vat.Book.MadeAnew(20, 100);
        Assert.Equal(0, vat.Balance(30).SodaAshFactor.Doses);
    }

    [Theory]
    [InlineData(null, 45.0, "the pH of Weld tub is not known")]
    [InlineData(9.2, null, "the temperature of Weld tub is not known")]
    public void What_is_not_known_is_asked_for(double? ph, double? warm, string says)
    {
        var vat = new AnsweringVat();
        var answer = VatDose.SodaAsh(vat.At(1) with { Ph = ph, TemperatureC = warm }, vat.Balance(1)).Answer;
        Assert.StartsWith(says, answer.Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void A_ferment_gets_no_dose()
    {
        var vat = new LogBook { Vat = new LogBook().Vat with { Reducer = ReducingAgent.Fermentation } };
        Assert.Contains("no dose is worked out", VatDose.Reducer(new WeakVat(vat.Facts, LogBook.Begin, 45, 9.5, -500, null), vat.At(0)).Answer.Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void The_order_of_writing_and_undoing_doses_makes_no_difference() => Gen.Select(Gen.Int[0, 100_000], Gen.Int[0, 4]).Sample((seed, withdrawn) =>
    {
        var random = new Random(seed);
        var vat = new AnsweringVat();
        for (var day = 0; day < 6; day++)
        {
            vat.Worked(24 * day + 1, 9.1 + 0.2 * random.NextDouble(), -630);
            vat.Dose(24 * day + 2, Material.SodaAsh, 40 + random.Next(100), 0.3 + 0.3 * random.NextDouble());
            vat.Dose(24 * day + 4, Material.ReducingAgent, 20 + random.Next(50), -20 - random.Next(40));
        }

        var kept = vat.Book.Entries.Skip(withdrawn).ToList();
        var shuffled = vat.Book.Entries.Select((entry, index) => index < withdrawn ? entry with { Withdrawn = LogBook.Begin } : entry).ToArray();
        random.Shuffle(shuffled);
        var (plain, mixed) = (VatLedger.At(vat.Of(kept), LogBook.Begin.AddHours(200)), VatLedger.At(vat.Of(shuffled), LogBook.Begin.AddHours(200)));
        Assert.Equal((plain.SodaAshFactor, plain.ReducerFactor), (mixed.SodaAshFactor, mixed.ReducerFactor));
    }, iter: 20);
}
