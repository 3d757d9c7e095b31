using VatWatch.Charts.Figures;
using VatWatch.Charts.Traces;
using VatWatch.Sessions.Entries;

namespace VatWatch.Charts.Tests.Figures;

/// <summary>Against the curve that <see cref="MorningOfDips"/> is made of.</summary>
public class DipAccountsTests
{
    private static readonly VatRecord Morning = MorningOfDips.Record();
    private static readonly IReadOnlyList<DipAccount> Accounts = DipAccounts.Of(Morning, ProbeTrace.Of(Morning));

    [Fact]
    public void Orp_is_told_before_at_its_highest_and_after()
    {
        Assert.Equal(3, Accounts.Count);
        Assert.Equal(-720, Accounts[0].OrpBefore!.Value, 1.0);
        Assert.Equal(-660, Accounts[0].OrpHighest!.Value, 2.0);
        // 20 to 30 min after out: 60 mV · exp(−25 min / 6 min) is 0.9 mV.
        Assert.Equal(-719.1, Accounts[0].OrpAfter!.Value, 1.0);
        // After the third, with 24 min: 60 · exp(−25/24) is 21 mV.
        Assert.Equal(MorningOfDips.Orp(6.2 + 25 / 60.0), Accounts[2].OrpAfter!.Value, 1.5);
    }

    [Fact]
    public void Recovery_takes_as_long_as_the_curve_says()
    {
        // Back is within a fifth of the rise: 6 min · ln 5 is 9.7 min after out; the clock of the assessor counts minutes and its own means.
        Assert.InRange(Accounts[0].Recovery!.Time!.Value.TotalMinutes, 8, 14);
        // 24 min · ln 5 is 39 min.
        Assert.InRange(Accounts[2].Recovery!.Time!.Value.TotalMinutes, 33, 45);
    }

    [Fact]
    public void The_condition_is_that_of_the_last_look_before_the_yarn_went_in()
    {
        Assert.Equal(45, Accounts[0].AtIn!.TemperatureC!.Value, 0.1);
        Assert.True(Accounts[0].AtIn!.Margin!.Millivolts < 0);
        Assert.InRange(Morning.Dips[0].In.Utc - Accounts[0].AtIn!.Stamp.Utc, TimeSpan.Zero, TimeSpan.FromMinutes(1));
    }

    [Fact]
    public void Yarn_that_is_still_in_has_no_after()
    {
        var open = Morning with { Entries = [.. MorningOfDips.Entries.Where(entry => entry.Id < MorningOfDips.Entries[^2].Id)] };
        Assert.Equal(EntryKind.DipIn, open.Entries[^1].Kind);
        Assert.Null(DipAccounts.Of(open, ProbeTrace.Of(open))[2].OrpAfter);
    }
}
