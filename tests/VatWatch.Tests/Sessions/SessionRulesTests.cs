using VatWatch.Sessions;

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
}
