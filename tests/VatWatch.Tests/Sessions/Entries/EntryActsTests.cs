using VatWatch.Conditions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions.Entries;

public class EntryActsTests
{
    [Theory]
    [InlineData(EntryKind.DipIn, null, VatActKind.Dip)]
    [InlineData(EntryKind.DipOut, null, VatActKind.Dip)]
    [InlineData(EntryKind.Added, Material.SodaAsh, VatActKind.Addition)]
    [InlineData(EntryKind.Added, Material.Stock, VatActKind.Addition)]
    [InlineData(EntryKind.Added, Material.Water, VatActKind.TopUp)]
    [InlineData(EntryKind.Stirred, null, VatActKind.Stir)]
    [InlineData(EntryKind.LidOff, null, VatActKind.LidOff)]
    [InlineData(EntryKind.LidOn, null, VatActKind.LidOn)]
    public void What_was_done_to_the_vat_is_an_act_at_that_moment(EntryKind kind, Material? material, VatActKind act) =>
        Assert.Equal(new VatAct(act, Entry(kind, material).At), Entry(kind, material).Act());

    [Theory]
    [InlineData(EntryKind.Note)]
    [InlineData(EntryKind.Photo)]
    public void What_is_only_written_down_is_none(EntryKind kind) => Assert.Null(Entry(kind, null).Act());

    private static SessionEntry Entry(EntryKind kind, Material? material) => new()
    {
        Id = 1,
        Vat = new VatId("madder-lane"),
        Kind = kind,
        Material = material,
        By = "anyone",
        At = new Stamp(new DateTimeOffset(2026, 3, 6, 7, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(3), true),
    };
}
