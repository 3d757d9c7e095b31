using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions.Entries;

public sealed class EntryTextTests
{
    private static readonly SessionEntry Bare = new() { Id = 1, Vat = new("weld-yard"), Kind = EntryKind.Note, At = new(DateTimeOffset.UnixEpoch, default, true), By = "anyone" };

    public static TheoryData<SessionEntry, string, string, string?> Lines => new()
    {
        { Bare with { Kind = EntryKind.Added, Material = Material.Stock, Amount = 2, Strength = 60 }, "added 2 L of stock, 60 g/L", "added 0.5 gal of stock, 60 g/L", "L" },
        { Bare with { Kind = EntryKind.Added, Material = Material.ReducingAgent, Amount = 20, Strength = 0.88 }, "added 20 g of reducing agent, 88 %", "added 0.71 oz of reducing agent, 88 %", "g" },
        { Bare with { Kind = EntryKind.Added, Material = Material.WashingSoda, Amount = 50, Text = "warm" }, "added 50 g of washing soda: warm", "added 1.76 oz of washing soda: warm", "g" },
        { Bare with { Kind = EntryKind.DrawnOff, Amount = 5 }, "drew off 5 L of liquor", "drew off 1.3 gal of liquor", "L" },
        { Bare with { Kind = EntryKind.MadeAnew, Amount = 150 }, "made anew with 150 L", "made anew with 39.6 gal", "L" },
        { Bare with { Kind = EntryKind.Reading, Reading = HandReading.Ph, Amount = 9.8 }, "read by hand: pH 9.8", "read by hand: pH 9.8", "pH" },
        { Bare with { Kind = EntryKind.Reading, Reading = HandReading.Temperature, Amount = 45 }, "read by hand: 45.0 °C", "read by hand: 113.0 °F", "°C" },
        { Bare with { Kind = EntryKind.Reading, Reading = HandReading.Alkalinity, Amount = 20 }, "read by hand: alkalinity 20 meq/L", "read by hand: alkalinity 20 meq/L", "meq/L" },
        { Bare with { Kind = EntryKind.Sign, Sign = Sign.Flower }, "flower", "flower", null },
        { Bare with { Kind = EntryKind.Sign, Sign = Sign.Skein, Amount = 25 }, "a test skein turned blue in 25 s", "a test skein turned blue in 25 s", "s" },
        { Bare with { Kind = EntryKind.Goods, Goods = GoodsKind.Yarn, Amount = 500 }, "500 g of yarn, dry", "1.10 lb of yarn, dry", "g" },
        { Bare with { Kind = EntryKind.Stirred }, "stirred", "stirred", null },
    };

    [Theory]
    [MemberData(nameof(Lines))]
    public void An_entry_is_one_line_in_the_dyers_units(SessionEntry entry, string si, string us, string? unit)
    {
        Assert.Equal((si, us), (entry.Line(DisplayUnits.Si, TimeZoneInfo.Utc), entry.Line(DisplayUnits.Us, TimeZoneInfo.Utc)));
        Assert.Equal(unit, entry.Unit());
    }

    [Fact]
    public void Every_sign_has_words_of_its_own()
    {
        var words = Enum.GetValues<Sign>().Select(sign => sign.Line(sign.IsTimed() ? 12 : null)).ToList();
        Assert.Equal(words.Count, words.Distinct().Count());
    }
}
