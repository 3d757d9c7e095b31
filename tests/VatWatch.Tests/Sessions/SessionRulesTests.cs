using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions;

public sealed class SessionRulesTests
{
    private static readonly VatId Vat = new("weld-yard");
    private static readonly Stamp Noon = new(new DateTimeOffset(2031, 3, 14, 12, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(1), true);

    [Theory]
    [InlineData(EntryKind.DipIn, false, null)]
    [InlineData(EntryKind.DipIn, true, "already")]
    [InlineData(EntryKind.DipOut, true, null)]
    [InlineData(EntryKind.DipOut, false, "No yarn")]
    [InlineData(EntryKind.Note, false, "empty")]
    [InlineData(EntryKind.Photo, false, "No picture")]
    [InlineData(EntryKind.Added, false, "what was added")]
    [InlineData(EntryKind.Stirred, true, null)]
    public void A_kind_of_entry_fits_or_is_refused_with_the_reason(EntryKind kind, bool yarnIsIn, string? says)
    {
        var tally = new SessionTally(yarnIsIn ? [new Dip(Noon, null)] : [], new Dictionary<Material, double>());
        var refused = SessionRules.WhyNot(new EntryDraft(Vat, kind, "anyone"), tally);
        if (says is null)
        {
            Assert.Null(refused);
        }
        else
        {
            Assert.Contains(says, refused, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData(Material.SodaAsh, 60, true)]
    [InlineData(Material.SodaAsh, 0, false)]
    [InlineData(Material.SodaAsh, -1, false)]
    [InlineData(Material.SodaAsh, double.NaN, false)]
    [InlineData(Material.SodaAsh, double.PositiveInfinity, false)]
    [InlineData(Material.ReducingAgent, 25_000, false)]
    [InlineData(Material.Water, 12, true)]
    [InlineData(Material.Water, 3_000, false)]
    public void An_amount_must_be_one_that_a_vat_can_take(Material material, double amount, bool fits) =>
        Assert.Equal(fits, SessionRules.WhyNot(new EntryDraft(Vat, EntryKind.Added, "anyone") { Material = material, Amount = amount }, null) is null);

    [Theory]
    [InlineData(Material.Stock, 60.0, null)]
    [InlineData(Material.Stock, 500.0, "The strength of the stock is 500 g/L; wanted more than 0 and at most 300 g/L.")]
    [InlineData(Material.Indigo, 0.4, null)]
    [InlineData(Material.ReducingAgent, 1.2, "The strength of reducing agent is 120 %; wanted more than 0 and at most 100 %.")]
    [InlineData(Material.SodaAsh, 0.0, "The strength of soda ash is 0 %")]
    [InlineData(Material.Water, 0.5, "Water has no strength.")]
    public void A_strength_goes_with_its_material(Material material, double strength, string? says) =>
        Says(says, new(Vat, EntryKind.Added, "anyone") { Material = material, Amount = 5, Strength = strength });

    [Theory]
    [InlineData(EntryKind.DrawnOff, 5.0, null)]
    [InlineData(EntryKind.DrawnOff, -5.0, "The amount of liquor drawn off is -5 L; wanted more than 0")]
    [InlineData(EntryKind.DrawnOff, null, "How much liquor drawn off it was is missing")]
    [InlineData(EntryKind.MadeAnew, 150.0, null)]
    [InlineData(EntryKind.MadeAnew, 9000.0, "at most 2000 L")]
    [InlineData(EntryKind.Goods, 500.0, "Goods need their kind")]
    [InlineData(EntryKind.Reading, 9.8, "A reading needs what was read")]
    [InlineData(EntryKind.Sign, null, "The sign is missing")]
    public void What_tells_of_the_vat_is_told_whole(EntryKind kind, double? amount, string? says) => Says(says, new(Vat, kind, "anyone") { Amount = amount });

    [Theory]
    [InlineData(HandReading.Ph, 9.8, null)]
    [InlineData(HandReading.Ph, 14.5, "The pH that was read is 14.5; wanted 0 to 14.")]
    [InlineData(HandReading.Temperature, 140.0, "wanted 0 to 110 °C")]
    [InlineData(HandReading.Orp, -640.0, null)]
    [InlineData(HandReading.Orp, double.NaN, "The ORP that was read is NaN mV; wanted -1200 to 800 mV.")]
    [InlineData(HandReading.Indigo, 0.0, null)]
    [InlineData(HandReading.Alkalinity, -1.0, "wanted 0 to 2000 meq/L")]
    public void A_reading_by_hand_is_one_that_can_be(HandReading reading, double value, string? says) =>
        Says(says, new(Vat, EntryKind.Reading, "anyone") { Reading = reading, Amount = value });

    [Theory]
    [InlineData(Sign.Flower, null, null)]
    [InlineData(Sign.Drop, 12.0, null)]
    [InlineData(Sign.Drop, null, "How much time until it turned blue it was is missing")]
    [InlineData(Sign.Skein, 0.0, "wanted more than 0")]
    public void A_sign_that_is_timed_has_its_seconds(Sign sign, double? seconds, string? says) => Says(says, new(Vat, EntryKind.Sign, "anyone") { Sign = sign, Amount = seconds });

    [Theory]
    [InlineData(Material.SodaAsh, 20_001, "The amount of soda ash is 20001 g; wanted at most 20000 g, since the vat is configured with 40 L.")]
    [InlineData(Material.SodaAsh, 20_000, null)]
    [InlineData(Material.Stock, 61, "wanted at most 60 L")]
    [InlineData(Material.Stock, 60, null)]
    public void A_vat_takes_no_more_than_it_holds_and_half_again(Material material, double amount, string? says)
    {
        var refused = SessionRules.WhyNotInto(40, new(Vat, EntryKind.Added, "anyone") { Material = material, Amount = amount });
        Assert.Equal(says is null, refused is null);
        Assert.Contains(says ?? "", refused ?? "", StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", false)]
    [InlineData("   ", false)]
    [InlineData("anyone", true)]
    public void Somebody_must_have_written_it(string by, bool fits) => Assert.Equal(fits, SessionRules.Person(by) is null);

    [Theory]
    [InlineData(0.0, null, false)]
    [InlineData(double.NaN, null, false)]
    [InlineData(900.0, "second blue", true)]
    [InlineData(600_000.0, null, false)]
    public void What_is_said_of_a_session_must_be_possible(double yarn, string? shade, bool fits) =>
        Assert.Equal(fits, SessionRules.WhyNot(new SessionDetails(yarn, null, shade, null)) is null);

    [Fact]
    public void A_tally_pairs_dips_and_sums_additions_and_passes_over_what_was_withdrawn()
    {
        var tally = SessionTally.Of(
        [
            Entry(1, EntryKind.DipIn, 0),
            Entry(2, EntryKind.DipOut, 5),
            Entry(3, EntryKind.Added, 6) with { Material = Material.SodaAsh, Amount = 40 },
            Entry(4, EntryKind.Added, 7) with { Material = Material.SodaAsh, Amount = 400, Withdrawn = Noon.Utc },
            Entry(5, EntryKind.Added, 7) with { Material = Material.SodaAsh, Amount = 4 },
            Entry(6, EntryKind.DipIn, 20),
        ]);

        Assert.Equal([TimeSpan.FromMinutes(5), null], tally.Dips.Select(dip => dip.Length));
        Assert.Equal(Noon.Plus(TimeSpan.FromMinutes(20)), tally.InSince);
        Assert.Equal(44, Assert.Single(tally.Added).Value);
    }

    private static SessionEntry Entry(long id, EntryKind kind, double minutes) =>
        new() { Id = id, Vat = Vat, Kind = kind, At = Noon.Plus(TimeSpan.FromMinutes(minutes)), By = "anyone" };

    private static void Says(string? says, EntryDraft draft)
    {
        var refused = SessionRules.WhyNot(draft, null);
        if (says is null)
        {
            Assert.Null(refused);
        }
        else
        {
            Assert.Contains(says, refused, StringComparison.Ordinal);
        }
    }
}
