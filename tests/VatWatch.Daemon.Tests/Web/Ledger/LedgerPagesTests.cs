using System.Net;
using VatWatch.Daemon.Tests.Web.Vats;
using VatWatch.Daemon.Web.Ledger;
using VatWatch.Ledger;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Tests.Web.Ledger;

public sealed class LedgerPagesTests
{
    private static readonly VatId Madder = new("madder-lane");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_was_written_down_is_in_the_balance_and_an_undo_takes_it_out()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.MadeAnew, "Ada") { Amount = 150 }, Cancel);
        var stock = await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.Added, "Ada") { Material = Material.Stock, Amount = 5, Strength = 56.699 }, Cancel);
        var text = VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane/ledger", Cancel));
        Assert.Contains("Made anew on", text, StringComparison.Ordinal);
        Assert.Contains("10.00 oz", text, StringComparison.Ordinal);

        await pages.LogBook.Desk.WithdrawAsync(Madder, stock.Entry!.Id, "Ada", Cancel);
        Assert.DoesNotContain("10.00 oz", VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane/ledger", Cancel)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_weak_vat_has_causes_a_question_steps_and_cautions()
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        await pages.LogBook.Desk.WriteAsync(new(Madder, EntryKind.Sign, "Ada") { Sign = Sign.Blue }, Cancel);
        var text = VatsPageTests.Text(await browser.GetStringAsync("/vats/madder-lane/revive", Cancel));
        Assert.Contains("The likely cause is too little reducing agent", text, StringComparison.Ordinal);
        Assert.Contains("What would tell most", text, StringComparison.Ordinal);
        Assert.Contains("Pull the heater's plug", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ledger")]
    [InlineData("revive")]
    public async Task A_vat_that_is_not_there_is_told(string page)
    {
        await using var pages = await RunningPages.StartAsync(new Scenes().Ready());
        using var browser = pages.Browser();
        using var reply = await browser.GetAsync($"/vats/nowhere/{page}", Cancel);
        Assert.Equal(HttpStatusCode.NotFound, reply.StatusCode);
    }

    [Fact]
    public void A_picture_spans_its_time_from_edge_to_edge()
    {
        VatBalance At(int hour, double grams) => new(DateTimeOffset.UnixEpoch.AddHours(hour), None, new(grams - 10, grams, grams + 10, "g", []), None, None);
        var picture = BalancePicture.Of([At(0, 100), At(5, 60), At(10, 40)], 600, 150)!;
        Assert.Equal(110, picture.Most);
        Assert.StartsWith("0,13.6 300,", picture.Line, StringComparison.Ordinal);
        Assert.Equal(6, picture.Range.Split(' ').Length);
        Assert.Null(BalancePicture.Of([At(0, 100)], 600, 150));
    }

    private static readonly Holding None = new(0, 0, 0, "L", []);
}
