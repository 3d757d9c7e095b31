using VatWatch.Sessions;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Sessions.Entries;

public sealed class EntryValueTests
{
    [Theory]
    [InlineData("stock 2 L of 60 g/L", Material.Stock, 2, 60.0)]
    [InlineData("stock 2 L 0.06 g/mL", null, 0, null)]
    [InlineData("reducing-agent 20,5 g 88 %", Material.ReducingAgent, 20.5, 0.88)]
    [InlineData("washing-soda 1 kg", Material.WashingSoda, 1000, null)]
    [InlineData("water 5 g", null, 0, null)]
    [InlineData("soda-ash -5 g", null, 0, null)]
    [InlineData("soda-ash", null, 0, null)]
    [InlineData("", null, 0, null)]
    public void What_was_added_has_its_unit_and_perhaps_a_strength(string value, Material? material, double amount, double? strength)
    {
        Assert.Equal(material is not null, EntryValue.TryRead(new(new("weld-yard"), EntryKind.Added, "anyone"), value, out var read, out var wanted));
        Assert.Equal((material, strength), (read.Material, read.Strength));
        Assert.Equal(amount, read.Amount ?? 0, 1e-9);
        Assert.Equal(material is null, wanted is not null);
    }

    [Fact]
    public void Every_word_is_read_and_every_example_of_a_fault_can_be_read()
    {
        foreach (var kind in new[] { EntryKind.Added, EntryKind.DrawnOff, EntryKind.MadeAnew, EntryKind.Reading, EntryKind.Sign, EntryKind.Goods })
        {
            var draft = new EntryDraft(new("weld-yard"), kind, "anyone");
            Assert.False(EntryValue.TryRead(draft, "?", out _, out var wanted));
            foreach (var example in wanted.Split('"').Where((_, index) => index % 2 == 1))
            {
                Assert.True(EntryValue.TryRead(draft, example, out var read, out _), example);
                Assert.Null(SessionRules.WhyNot(read, null));
            }
        }

        Assert.All(Enum.GetValues<Sign>(), sign => Assert.True(EntryValue.TryRead(
            new(new("weld-yard"), EntryKind.Sign, "anyone"), sign.IsTimed() ? $"{sign.Word()} 1 min" : sign.Word(), out var read, out _) && read.Sign == sign && read.Amount == (sign.IsTimed() ? 60 : null)));
    }

    [Fact]
    public void A_kind_without_such_a_value_is_given_back_as_it_is()
    {
        var draft = new EntryDraft(new("weld-yard"), EntryKind.Stirred, "anyone");
        Assert.True(EntryValue.TryRead(draft, "anything", out var read, out _));
        Assert.Equal(draft, read);
    }
}
