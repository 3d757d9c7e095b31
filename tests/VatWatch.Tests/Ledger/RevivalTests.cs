using VatWatch.Ledger;
using VatWatch.Sessions.Entries;

namespace VatWatch.Tests.Ledger;

public sealed class RevivalTests
{
    private static readonly VatDefinition Vat = new LogBook().Vat with
    {
        Ph = new PhBand(10, 10.8),
        Orp = new OrpLimits(-640, -580, "Ag/AgCl 3 M KCl", 20),
    };

    [Fact]
    public void Shares_add_up_to_one_and_the_likeliest_comes_first()
    {
        var revival = Of(Made(), 44, 10.4, -560);
        Assert.Equal(1, revival.Causes.Sum(one => one.Share), 9);
        Assert.Equal(revival.Causes.OrderByDescending(one => one.Share), revival.Causes);
        Assert.Equal(6, revival.Causes.Count);
    }

    [Theory]
    [InlineData(30, 10.4, -600, VatCause.Cold)]
    [InlineData(44, 9.2, -640, VatCause.Alkali)]
    [InlineData(44, 10.4, -560, VatCause.ReducingAgent)]
    public void What_the_probes_show_points_to_its_cause(double warm, double ph, double orp, VatCause cause) => Assert.Equal(cause, Of(Made(), warm, ph, orp).Causes[0].Cause);

    [Fact]
    public void Yellow_liquor_that_dyes_pale_has_lost_its_dye()
    {
        var revival = Of(Made().Saw(9, Sign.Yellow).Saw(9, Sign.Pale), 44, 10.4, -680);
        Assert.Equal(VatCause.DyeSpent, revival.Causes[0].Cause);
        Assert.Contains(revival.Steps, step => step.StartsWith("Dye:", StringComparison.Ordinal));
    }

    [Fact]
    public void A_strip_that_disagrees_doubts_the_electrode()
    {
        var without = Share(Of(Made(), 44, 9.2, -640), VatCause.Electrode);
        Assert.True(Share(Of(Made().Read(9, HandReading.Ph, 10.4), 44, 9.2, -640), VatCause.Electrode) > 3 * without);
    }

    [Fact]
    public void What_was_answered_is_not_asked_again()
    {
        var first = Of(Made(), 44, 10.4, -560).Ask;
        Assert.NotNull(first);
        Assert.NotEqual(first, Of(Made().Saw(9, Sign.Blue).Saw(9, Sign.NoFlower).Saw(9, Sign.NoSheen), 44, 10.4, -560).Ask);
    }

    [Fact]
    public void What_helped_this_vat_before_is_believed_more()
    {
        var book = Made();
        for (var day = 0; day < 6; day++)
        {
            book.Added(-24 * (day + 2), Material.SodaAsh, 40).Dip(-24 * (day + 2) + 3, $"2026-02-{10 + day}", 400);
        }

        Assert.True(Share(Of(book, 44, 10.4, -600), VatCause.Alkali) > Share(Of(Made(), 44, 10.4, -600), VatCause.Alkali) + 0.05);
    }

    [Theory]
    [InlineData(52, 10.4, "too hot: unplug the heater")]
    [InlineData(44, 7.6, "sulfur dioxide")]
    public void It_refuses_with_a_reason(double warm, double ph, string words)
    {
        var revival = Of(Made(), warm, ph, -560);
        Assert.Empty(revival.Steps);
        Assert.Contains(words, revival.Refused, StringComparison.Ordinal);
    }

    [Fact]
    public void An_electrode_at_fault_is_refused_by_name()
    {
        var vat = new WeakVat(Made().Facts, LogBook.Begin.AddHours(10), 44, 10.4, null, "electrode 'platinum' is at fault: no reply");
        Assert.Contains("electrode 'platinum' is at fault", Revival.Of(vat).Refused, StringComparison.Ordinal);
    }

    [Fact]
    public void Steps_come_in_the_order_in_which_they_help()
    {
        var steps = Of(Made(), 30, 9.3, -560).Steps.ToList();
        var (warm, alkali) = (steps.FindIndex(step => step.StartsWith("Warm it", StringComparison.Ordinal)), steps.FindIndex(step => step.Contains("alkali", StringComparison.OrdinalIgnoreCase) || step.StartsWith("Soda ash", StringComparison.Ordinal)));
        Assert.InRange(warm, 0, steps.Count);
        Assert.True(alkali < 0 || warm < alkali);
    }

    private static LogBook Made() => new LogBook { Vat = Vat }.MadeAnew(0, 100).Added(0, Material.Stock, 4, 60).Added(0, Material.SodaAsh, 212).Added(0, Material.ReducingAgent, 60, 1);

    private static Revival Of(LogBook book, double warm, double ph, double orp) => Revival.Of(new WeakVat(book.Facts, LogBook.Begin.AddHours(10), warm, ph, orp, null));

    private static double Share(Revival revival, VatCause cause) => revival.Causes.Single(one => one.Cause == cause).Share;
}
