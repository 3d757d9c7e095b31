using VatWatch.Daemon.Web.LogBook.Writing;
using VatWatch.Sessions.Entries;

namespace VatWatch.Daemon.Tests.Web.LogBook.Writing;

public sealed class DyersQuantityTests
{
    [Theory]
    [InlineData("2", Material.SodaAsh, true, 56.699)]
    [InlineData("2", Material.SodaAsh, false, 2)]
    [InlineData("2 g", Material.SodaAsh, true, 2)]
    [InlineData(".5", Material.Water, true, 1.8927)]
    [InlineData(" 1.5 L ", Material.Stock, true, 1.5)]
    [InlineData("1,5", Material.Water, false, 1.5)]
    [InlineData("20,5 grams", Material.SodaAsh, true, 20.5)]
    [InlineData("1 lb", Material.ReducingAgent, false, 453.592)]
    public void A_bare_number_takes_the_unit_of_the_page(string text, Material material, bool us, double amount)
    {
        Assert.True(DyersQuantity.TryAmount(text, material, new DisplayUnits(us), out var read));
        Assert.Equal(amount, read, 0.001);
    }

    [Theory]
    [InlineData("")]
    [InlineData("two")]
    [InlineData("1,500")]
    [InlineData("NaN")]
    [InlineData("2 gal")]
    public void What_is_no_weight_is_refused(string text) => Assert.False(DyersQuantity.TryAmount(text, Material.SodaAsh, DisplayUnits.Us, out _));
}
