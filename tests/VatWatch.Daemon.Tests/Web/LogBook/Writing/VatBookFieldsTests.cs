using System.Net;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Sessions.Entries;
using VatWatch.Sessions;

namespace VatWatch.Daemon.Tests.Web.LogBook.Writing;

public sealed class VatBookFieldsTests
{
    private const string Page = "/vats/madder-lane";

    [Theory]
    [InlineData(EntryKind.Sign, "sign=flower", "flower")]
    [InlineData(EntryKind.Sign, "sign=drop&amount=12", "a drop turned blue in 12 s")]
    [InlineData(EntryKind.Sign, "sign=skein&amount=1 minute", "a test skein turned blue in 60 s")]
    [InlineData(EntryKind.Reading, "reading=ph&amount=9,8", "read by hand: pH 9.8")]
    [InlineData(EntryKind.Reading, "reading=temperature&amount=113", "read by hand: 113.0 °F")]
    [InlineData(EntryKind.Reading, "reading=temperature&amount=45 C", "read by hand: 113.0 °F")]
    [InlineData(EntryKind.Reading, "reading=orp&amount=-640", "read by hand: ORP -640 mV")]
    [InlineData(EntryKind.Goods, "goods=yarn&amount=2 pounds", "2.00 lb of yarn, dry")]
    [InlineData(EntryKind.DrawnOff, "amount=2", "drew off 2.0 gal of liquor")]
    [InlineData(EntryKind.MadeAnew, "amount=150 litres", "made anew with 39.6 gal")]
    public void Fields_are_taken_in_the_units_of_the_page(EntryKind kind, string fields, string line)
    {
        var draft = VatBookFields.Read(new(new("madder-lane"), kind, "Ada"), Form(fields), DisplayUnits.Us);
        Assert.Null(SessionRules.WhyNot(draft, null));
        Assert.Equal(line, Entry(draft).Line(DisplayUnits.Us, TimeZoneInfo.Utc));
    }

    [Theory]
    [InlineData(EntryKind.Sign, "sign=purple", "choose a sign")]
    [InlineData(EntryKind.Sign, "sign=drop", "wanted seconds such as")]
    [InlineData(EntryKind.Sign, "sign=flower&amount=12", "The seconds are \"12\" beside \"flower\"; wanted none")]
    [InlineData(EntryKind.Reading, "amount=9.8", "does not say what was read")]
    [InlineData(EntryKind.Reading, "reading=ph&amount=nine", "The pH that was read is \"nine\"; wanted a number such as")]
    [InlineData(EntryKind.Reading, "reading=temperature&amount=5 g", "wanted a number in °F")]
    [InlineData(EntryKind.Goods, "goods=felt&amount=2 lb", "choose yarn, cloth or garment")]
    [InlineData(EntryKind.Goods, "goods=yarn&amount=2 L", "The dry weight is \"2 L\"")]
    [InlineData(EntryKind.MadeAnew, "amount=40 g", "The amount of liquor is \"40 g\"; wanted a volume")]
    public void What_cannot_be_read_is_a_sentence(EntryKind kind, string fields, string says)
    {
        var unusable = Assert.Throws<UnusableFormException>(() => VatBookFields.Read(new(new("madder-lane"), kind, "Ada"), Form(fields), DisplayUnits.Us));
        Assert.Contains(says, unusable.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Material.Stock, "strength=60", 60.0)]
    [InlineData(Material.Stock, "strength=60 g/L", 60.0)]
    [InlineData(Material.ReducingAgent, "strength=88", 0.88)]
    [InlineData(Material.Indigo, "strength=40 percent", 0.4)]
    [InlineData(Material.SodaAsh, "", null)]
    public void A_strength_is_taken_where_it_is_given(Material material, string fields, double? strength) => Assert.Equal(strength, WithStrength(material, fields).Strength);

    [Fact]
    public void A_strength_in_the_unit_of_another_material_is_refused()
    {
        var unusable = Assert.Throws<UnusableFormException>(() => WithStrength(Material.Stock, "strength=60 %"));
        Assert.Contains("The strength of", unusable.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_page_has_their_forms_and_says_back_what_was_written_with_a_way_to_undo_it()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        var empty = await browser.GetStringAsync(Page, TestContext.Current.CancellationToken);
        Assert.All(["log-sign", "log-reading", "log-goods", "log-liquor", "log-strength"], id => Assert.Contains($"id=\"{id}\"", empty, StringComparison.Ordinal));

        using var seen = await Forms.SubmitAsync(browser, Page, "/madder-lane/entries", ("by", "Ada"), ("kind", "sign"), ("sign", "drop"), ("amount", "12"));
        using var stock = await Forms.SubmitAsync(
            browser, Page, "/madder-lane/entries", ("by", "Ada"), ("kind", "added"), ("material", "stock"), ("amount", "2 litres"), ("strength", "60"));
        Assert.Equal((HttpStatusCode.SeeOther, HttpStatusCode.SeeOther), (seen.StatusCode, stock.StatusCode));

        var text = VatsPageTests.Text(await browser.GetStringAsync(Page, TestContext.Current.CancellationToken));
        Assert.Contains("a drop turned blue in 12 s", text, StringComparison.Ordinal);
        Assert.Contains("added 0.5 gal of stock, 60 g/L", text, StringComparison.Ordinal);
        Assert.Contains("Undo", text, StringComparison.Ordinal);
    }

    private static EntryDraft WithStrength(Material material, string fields) =>
        VatBookFields.WithStrength(new(new("madder-lane"), EntryKind.Added, "Ada") { Material = material, Amount = 5 }, material, Form(fields));

    private static FormCollection Form(string fields) => new(fields.Split('&', StringSplitOptions.RemoveEmptyEntries)
        .ToDictionary(pair => pair[..pair.IndexOf('=', StringComparison.Ordinal)], pair => new StringValues(pair[(pair.IndexOf('=', StringComparison.Ordinal) + 1)..])));

    private static SessionEntry Entry(EntryDraft draft) => new()
    {
        Id = 1,
        Vat = draft.Vat,
        Kind = draft.Kind,
        By = draft.By,
        At = new(DateTimeOffset.UnixEpoch, default, true),
        Amount = draft.Amount,
        Reading = draft.Reading,
        Sign = draft.Sign,
        Goods = draft.Goods,
    };
}
