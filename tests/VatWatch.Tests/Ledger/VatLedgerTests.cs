using CsCheck;
using VatWatch.Ledger;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Ledger;

public sealed class VatLedgerTests
{
    [Fact]
    public void A_vat_that_was_made_anew_holds_what_was_put_in()
    {
        var balance = new LogBook().MadeAnew(0, 100).Added(0, Material.Stock, 4, 60).Added(0, Material.SodaAsh, 212).Added(0, Material.ReducingAgent, 100, 1).At(0);
        Assert.Equal(104, balance.Liquor.Value, 1);
        Assert.Equal(240, balance.Indigo.Value, 1);
        // 212 g of Na2CO3 are 2 mol (105.99 g/mol, IUPAC) and 4 eq, in 104 L; 100 L of tap water bring 0.25 mol of bicarbonate.
        Assert.Equal(4250 / 104.0, balance.Alkalinity.Value, 0.1);
        Assert.Equal(2250 / 104.0, balance.Carbonate.Value, 0.1);
        Assert.Equal(100, balance.Reducer.Value, 1);
    }

    [Fact]
    public void A_vat_of_which_nothing_is_written_is_full_and_little_is_known_of_it()
    {
        var balance = new LogBook().At(0);
        Assert.Equal(100, balance.Liquor.Value, 1);
        Assert.True(balance.Indigo.High > 5 * balance.Indigo.Low);
        Assert.Contains("Nobody wrote when it was made", balance.Indigo.RestsOn[1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_ledger_goes_on_entry_by_entry_to_what_it_would_be_if_it_were_made_from_all()
    {
        var book = new LogBook().MadeAnew(0, 100).Added(0, Material.Stock, 4, 60).Added(1, Material.SodaAsh, 212).Added(1, Material.ReducingAgent, 100, 1);
        var ledger = VatLedger.Through(book.Facts, LogBook.Begin.AddHours(2));
        var known = book.Entries.Count;
        book.Dip(30, "2026-03-03", 2000).Added(31, Material.ReducingAgent, 20, 1).Dip(31.5, "2026-03-03", 2000);
        foreach (var entry in book.Entries.Skip(known))
        {
            var (step, all) = (ledger.After(entry), VatLedger.At(book.Facts, entry.At.Utc));
            Assert.Equal(Values(all), Values(step));
        }

        static (double, double, double, double, double, double) Values(VatBalance balance) =>
            (balance.Liquor.Value, balance.Indigo.Value, balance.Indigo.High, balance.Alkalinity.Value, balance.Carbonate.Value, balance.Reducer.Value);
    }

    [Fact]
    public void Water_in_place_of_water_and_water_in_place_of_liquor_are_two_things()
    {
        var evaporated = new LogBook().MadeAnew(0, 100).Added(0, Material.Stock, 4, 60).Added(1, Material.Water, 10).At(1);
        var replaced = new LogBook().MadeAnew(0, 100).Added(0, Material.Stock, 4, 60).DrawnOff(1, 10).Added(1, Material.Water, 10).At(1);
        Assert.Equal(240, evaporated.Indigo.Value, 1);
        Assert.Equal(240 * (1 - 10 / 104.0), replaced.Indigo.Value, 1);
    }

    [Fact]
    public void Reducing_agent_goes_with_time_and_takes_alkali_along()
    {
        var book = new LogBook().MadeAnew(0, 100).Added(0, Material.SodaAsh, 212).Added(0, Material.ReducingAgent, 200, 1);
        var (first, later) = (book.At(1), book.At(24 * 14));
        Assert.True(later.Reducer.Value < first.Reducer.Value);
        Assert.True(later.Alkalinity.Value < first.Alkalinity.Value);
        // The surface of a vat of 100 L, 0.5 m across, takes some 0.3 g of oxygen a day under a lid at 20 °C by hand: 0.17 m² × 0.5 cm/h × 1.5 × 9 g/m³ × 24 h, at 0.55 of the warm
        // vat's velocity. Thiourea dioxide burns 3.4 to 6.8 g for each: 1 to 2 g a day.
        Assert.InRange(first.Reducer.Value - later.Reducer.Value, 5, 40);
    }

    [Fact]
    public void Ranges_widen_with_time_and_dips_and_narrow_with_a_reading()
    {
        var book = new LogBook().MadeAnew(0, 100).Added(0, Material.Stock, 4, 60);
        var made = Width(book.At(0).Indigo);
        for (var dip = 0; dip < 6; dip++)
        {
            book.Dip(2 + dip, "2026-03-02", 1000);
        }

        var dipped = Width(book.At(10).Indigo);
        Assert.True(dipped > 1.5 * made);
        Assert.True(book.At(10).Indigo.Value < 235);
        book.Read(11, HandReading.Indigo, 1.9);
        Assert.True(Width(book.At(11).Indigo) < dipped);
        Assert.Contains(book.At(11).Indigo.RestsOn, line => line.Contains("1.9 g/L", StringComparison.Ordinal));
    }

    [Fact]
    public void An_assay_after_dips_teaches_what_the_goods_take()
    {
        static LogBook Book(double readGramsPerLitre)
        {
            var book = new LogBook().MadeAnew(0, 100).Added(0, Material.Stock, 4, 60);
            for (var dip = 0; dip < 6; dip++)
            {
                book.Dip(2 + dip, "2026-03-02", 3000);
            }

            book.Read(11, HandReading.Indigo, readGramsPerLitre).MadeAnew(12, 100).Added(12, Material.Stock, 4, 60);
            for (var dip = 0; dip < 6; dip++)
            {
                book.Dip(14 + dip, "2026-03-03", 3000);
            }

            return book;
        }

        Assert.True(Book(1.2).At(24).Indigo.Value < Book(2.1).At(24).Indigo.Value - 10);
    }

    [Fact]
    public void Goods_bring_back_what_they_carried_on_the_same_day_and_not_on_the_next()
    {
        static LogBook Made() => new LogBook().MadeAnew(0, 100);
        var once = 100 - Made().Dip(1, "2026-03-02", 2000).At(1.2).Liquor.Value;
        Assert.InRange(once, 2 * 0.5, 2 * 2);
        Assert.Equal(once, 100 - Made().Dip(1, "2026-03-02", 2000).Dip(1.5, "2026-03-02", 2000).At(1.7).Liquor.Value, 0.2);
        Assert.Equal(2 * once, 100 - Made().Dip(1, "2026-03-02", 2000).Dip(25, "2026-03-03", 2000).At(25.2).Liquor.Value, 0.5);
    }

    [Fact]
    public void What_the_configuration_says_of_carry_over_counts()
    {
        var book = new LogBook { Vat = new LogBook().Vat with { CarryOverLitresPerKg = 2 } }.MadeAnew(0, 100).Dip(1, "2026-03-02", 2000);
        Assert.Equal(96, book.At(1.1).Liquor.Value, 0.1);
        Assert.True(book.At(1.1).Liquor.Sigma < new LogBook().MadeAnew(0, 100).Dip(1, "2026-03-02", 2000).At(1.1).Liquor.Sigma + 0.2);
    }

    [Fact]
    public void An_oxidised_potential_read_by_hand_says_that_agent_is_nearly_gone()
    {
        var vat = new LogBook().Vat with { Orp = new OrpLimits(-640, -570, "Ag/AgCl 3 M KCl", 20) };
        LogBook Book() => new LogBook { Vat = vat }.MadeAnew(0, 100).Added(0, Material.ReducingAgent, 60, 1);
        var (before, after) = (Book().At(24 * 7).Reducer, Book().Read(24 * 7, HandReading.Orp, -540).At(24 * 7).Reducer);
        Assert.True(after.Value < 0.7 * before.Value);
        Assert.Contains(after.RestsOn, line => line.StartsWith("ORP read by hand", StringComparison.Ordinal) && line.EndsWith("-540 mV.", StringComparison.Ordinal));
    }

    [Fact]
    public void A_titration_and_a_strip_correct_the_alkalinity()
    {
        var book = new LogBook().Read(1, HandReading.Alkalinity, 60);
        Assert.InRange(book.At(1).Alkalinity.Value, 50, 62);
        var strip = new LogBook().MadeAnew(0, 100).Added(0, Material.SodaAsh, 100).Read(1, HandReading.Ph, 9);
        Assert.True(strip.At(1).Alkalinity.Value <= new LogBook().MadeAnew(0, 100).Added(0, Material.SodaAsh, 100).At(1).Alkalinity.Value);
    }

    [Fact]
    public void A_ferment_is_not_weighed()
    {
        var vat = new LogBook().Vat with { Reducer = ReducingAgent.Fermentation };
        var balance = new LogBook { Vat = vat }.Added(1, Material.ReducingAgent, 100).At(2);
        Assert.Equal(0, balance.Reducer.High);
        Assert.Contains("ferment", balance.Reducer.RestsOn[0], StringComparison.Ordinal);
    }

    [Fact]
    public void The_order_of_writing_and_undoing_makes_no_difference() => Gen.Select(Gen.Int[0, 100_000], Gen.Int[1, 12]).Sample((seed, withdrawn) =>
    {
        var random = new Random(seed);
        var book = new LogBook();
        for (var i = 0; i < 12; i++)
        {
            var hour = random.Next(0, 40);
            _ = random.Next(6) switch
            {
                0 => book.Added(hour, Material.Stock, 1 + random.Next(3), 50),
                1 => book.Added(hour, Material.Water, 1 + random.Next(5)),
                2 => book.DrawnOff(hour, 1 + random.Next(5)),
                3 => book.Read(hour, HandReading.Indigo, 1 + random.NextDouble()),
                4 => book.Added(hour, Material.ReducingAgent, 20),
                _ => book.Dip(hour, $"2026-03-0{1 + random.Next(3)}", 500),
            };
        }

        var kept = book.Entries.Skip(withdrawn).ToList();
        var shuffled = book.Entries.Select((entry, index) => index < withdrawn ? entry with { Withdrawn = LogBook.Begin } : entry).ToArray();
        random.Shuffle(shuffled);
        var (plain, mixed) = (VatLedger.At(book.Of(kept), LogBook.Begin.AddHours(50)), VatLedger.At(book.Of(shuffled), LogBook.Begin.AddHours(50)));
        Assert.Equal(plain.Lines.Select(line => (line.Holding.Low, line.Holding.Value, line.Holding.High)), mixed.Lines.Select(line => (line.Holding.Low, line.Holding.Value, line.Holding.High)));
    }, iter: 30);

    private static double Width(Holding holding) => holding.High - holding.Low;
}
