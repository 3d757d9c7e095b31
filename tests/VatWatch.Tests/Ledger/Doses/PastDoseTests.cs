using VatWatch.Ledger.Doses;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Ledger.Doses;

public sealed class PastDoseTests
{
    [Fact]
    public void It_reads_a_quarter_before_and_a_quarter_after_the_wait()
    {
        var dose = Assert.Single(In(new LogBook().Added(2, Material.SodaAsh, 50)));
        Assert.Equal((50, At(1.75), At(2)), (dose.Grams, dose.Before.From, dose.Before.To));
        Assert.Equal((At(2).AddMinutes(10), At(2).AddMinutes(25)), (dose.After.From, dose.After.To));
    }

    [Fact]
    public void Portions_before_the_wait_is_over_are_one_dose_and_after_it_two()
    {
        Assert.Equal([80], In(new LogBook().Added(2, Material.SodaAsh, 50).Added(2 + 5 / 60.0, Material.SodaAsh, 30)).Select(dose => dose.Grams));
        Assert.Equal([50, 30], In(new LogBook().Added(2, Material.SodaAsh, 50).Added(2 + 16 / 60.0, Material.SodaAsh, 30)).Select(dose => dose.Grams));
    }

    // Decahydrate is 2.700 times the weight (molar masses 286.14 and 105.99 g/mol, IUPAC).
    [Fact]
    public void Washing_soda_counts_by_what_is_in_it() => Assert.Equal(100 / 2.7, Assert.Single(In(new LogBook().Added(2, Material.WashingSoda, 100))).Grams, 0.01);

    [Theory]
    [InlineData(-4, Material.Water)]
    [InlineData(8, Material.Stock)]
    [InlineData(8, Material.Lye)]
    public void What_else_happens_near_it_spoils_it(double minutes, Material material) =>
        Assert.Empty(In(new LogBook().Added(2, Material.SodaAsh, 50).Added(2 + minutes / 60, material, 1)));

    [Fact]
    public void Goods_in_the_vat_spoil_it()
    {
        Assert.Empty(In(new LogBook().Dip(1.9, "2026-03-02", 500, minutes: 30).Added(2, Material.SodaAsh, 50)));
        Assert.Single(In(new LogBook().Dip(1, "2026-03-02", 500).Added(2, Material.SodaAsh, 50)));
    }

    private static DateTimeOffset At(double hour) => LogBook.Begin.AddHours(hour);

    private static List<PastDose> In(LogBook book) => [.. PastDose.In(book.Facts.Standing(At(10)), DoseKind.SodaAsh, At(10))];
}
