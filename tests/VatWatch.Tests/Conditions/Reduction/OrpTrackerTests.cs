using VatWatch.Conditions;
using VatWatch.Conditions.Reduction;
using VatWatch.Testing;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class OrpTrackerTests
{
    private readonly OrpTracker _watch = new(SampleVats.MadderLane());
    private readonly Random _random = new(8);
    private TimeSpan _now = TimeSpan.FromMinutes(1);

    [Fact]
    public void A_steady_rise_has_its_slope_and_is_no_transient()
    {
        Run(60, minute => -700 + minute * 0.5);
        Assert.Equal(30, _watch.Trend!.Value.PerHour, 2.0);
        Assert.Null(_watch.Transient.Since);
    }

    [Fact]
    public void A_dip_told_of_takes_the_slope_away_until_the_vat_has_come_back_and_its_recovery_is_measured()
    {
        Run(30, _ => -700);
        _watch.Note(VatActKind.Dip, Now);
        var dipped = _now;
        Run(5, minute => -700 + 40 * Math.Exp(-minute / 8.0));
        Assert.Null(_watch.Trend);
        Assert.Equal(dipped, _watch.Transient.Since);
        Run(35, minute => -700 + 40 * Math.Exp(-(minute + 5) / 8.0));
        Assert.Null(_watch.Transient.Since);
        var recovery = Assert.Single(_watch.Recoveries.All);

        // 40 mV dying away with 8 min is within 20 % after 8 ln 5 = 12.9 min.
        Assert.InRange(recovery.Time!.Value.TotalMinutes, 11, 16);
        Assert.InRange(recovery.FromPeak!.Value.TotalMinutes, 9, 14);
        Assert.InRange(recovery.RiseMillivolts, 30, 42);
        Run(20, _ => -700);
        Assert.InRange(_watch.Trend!.Value.PerHour, -8, 8);
    }

    [Fact]
    public void A_potential_that_trembles_on_its_way_back_goes_on_recovering()
    {
        Run(30, _ => -700);
        _watch.Note(VatActKind.Dip, Now);
        Run(3, _ => -600);
        Assert.False(_watch.Transient.IsRecovering(-606));
        Assert.True(_watch.Transient.IsRecovering(-614));
        Assert.True(_watch.Transient.IsRecovering(-607));
        Assert.False(_watch.Transient.IsRecovering(-602));
    }

    [Fact]
    public void A_dip_nobody_told_of_is_known_by_its_step()
    {
        Run(30, _ => -700);
        Run(4, minute => -700 + 40 * Math.Exp(-minute / 8.0));
        Assert.NotNull(_watch.Transient.Since);
        Run(40, minute => -700 + 40 * Math.Exp(-(minute + 4) / 8.0));
        Assert.Single(_watch.Recoveries.All);
    }

    [Fact]
    public void A_vat_that_does_not_come_back_is_followed_again_within_half_an_hour()
    {
        Run(30, _ => -680);
        _watch.Note(VatActKind.Dip, Now);
        Run(45, minute => -630 + minute * 0.5);
        Assert.Null(_watch.Transient.Since);
        Assert.Equal(30, _watch.Trend!.Value.PerHour, 4.0);
        Assert.Null(Assert.Single(_watch.Recoveries.All).Time);
    }

    [Fact]
    public void Every_dip_of_a_quick_hand_has_its_own_recovery()
    {
        Run(30, _ => -700);
        for (var dip = 0; dip < 3; dip++)
        {
            _watch.Note(VatActKind.Dip, Now);
            Run(12, _ => -660);
            _watch.Note(VatActKind.Dip, Now);
            Run(24, minute => -700 + 40 * Math.Exp(-minute / 5.0));
        }

        Run(40, _ => -700);
        Assert.Equal(3, _watch.Recoveries.All.Count);
        Assert.All(_watch.Recoveries.All, recovery => Assert.InRange(recovery.Time!.Value.TotalMinutes, 7, 13));
    }

    [Fact]
    public void Stirring_that_does_nothing_leaves_no_recovery()
    {
        Run(30, _ => -700);
        _watch.Note(VatActKind.Stir, Now);
        Run(15, _ => -700);
        Assert.Null(_watch.Transient.Since);
        Assert.Empty(_watch.Recoveries.All);
    }

    [Fact]
    public void A_long_gap_begins_anew()
    {
        Run(30, minute => -700 + minute * 0.5);
        _now += TimeSpan.FromMinutes(40);
        Run(5, _ => -600);
        Assert.Null(_watch.Trend);
        Assert.Null(_watch.Transient.Since);
    }

    private Stamp Now => new(DateTimeOffset.UnixEpoch + _now, _now, true);

    private void Run(int minutes, Func<double, double> millivolts)
    {
        var start = _now;
        for (var end = _now + TimeSpan.FromMinutes(minutes); _now < end; _now += TimeSpan.FromSeconds(10))
        {
            _watch.Add(Now, millivolts((_now - start).TotalMinutes) + 2 * (_random.NextDouble() - 0.5));
        }
    }
}
