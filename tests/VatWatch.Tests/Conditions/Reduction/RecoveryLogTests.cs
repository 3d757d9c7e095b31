using VatWatch.Conditions;
using VatWatch.Conditions.Reduction;

namespace VatWatch.Tests.Conditions.Reduction;

public sealed class RecoveryLogTests
{
    private readonly RecoveryLog _log = new();

    [Fact]
    public void Even_recoveries_are_no_sign()
    {
        Dips((12, 0), (14, 2), (11, 1), (13, 2));
        Assert.Null(_log.RunningOut(-660));
    }

    [Fact]
    public void Two_dips_that_do_not_come_back_are_a_sign()
    {
        Dips((12, 0), (null, 15), (null, 22));
        var sign = _log.RunningOut(-660);
        Assert.Equal(DiagnosisKind.ReducerRunningOut, sign?.Kind);
        Assert.Contains("22 mV above", sign!.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Recoveries_that_take_longer_and_longer_are_a_sign_until_the_vat_is_fed()
    {
        Dips((12, 0), (16, 0), (24, 0));
        Assert.Contains("takes 24 min, at first it took 12 min", _log.RunningOut(-660)!.Sentence.ToString(), StringComparison.Ordinal);
        _log.Clear();
        Assert.Null(_log.RunningOut(-660));
    }

    [Fact]
    public void Yarn_that_hangs_in_for_longer_is_no_sign()
    {
        foreach (var (dip, inYarn) in new[] { 2, 8, 15 }.Index())
        {
            Add(dip, 10 + inYarn, 10, 0);
        }

        Assert.Null(_log.RunningOut(-660));
    }

    [Fact]
    public void A_level_that_creeps_up_over_the_dips_is_a_sign()
    {
        double level = -700;
        for (var i = 0; i < 4; i++, level += 8)
        {
            _log.Add(new Recovery(At(i), level, 40, TimeSpan.FromMinutes(15), 8));
        }

        Assert.Contains("crept up by 32 mV", _log.RunningOut(-660)!.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Recoveries_within_minutes_are_no_sign_however_much_they_differ()
    {
        Dips((1, 0), (3, 0), (13, 0));
        Assert.Null(_log.RunningOut(-660));
    }

    [Fact]
    public void A_creep_far_from_the_mark_of_weak_is_no_sign_yet()
    {
        double level = -700;
        for (var i = 0; i < 4; i++, level += 8)
        {
            _log.Add(new Recovery(At(i), level, 40, TimeSpan.FromMinutes(15), 8));
        }

        Assert.NotNull(_log.RunningOut(-650));
        Assert.NotNull(_log.RunningOut(null));
        Assert.Null(_log.RunningOut(-600));
    }

    [Fact]
    public void Yesterday_is_forgotten_and_the_log_is_bounded()
    {
        Dips((12, 0), (16, 0), (24, 0));
        _log.Add(new Recovery(At(24 * 2), -700, 40, TimeSpan.FromMinutes(12), 0));
        Assert.Single(_log.All);
        for (var i = 0; i < 2 * RecoveryLog.Capacity; i++)
        {
            _log.Add(new Recovery(At(97), -700, 40, TimeSpan.FromMinutes(12), 0));
        }

        Assert.Equal(RecoveryLog.Capacity, _log.All.Count);
    }

    private void Dips(params (int? Minutes, double Shortfall)[] dips)
    {
        for (var i = 0; i < dips.Length; i++)
        {
            Add(i, dips[i].Minutes, dips[i].Minutes, dips[i].Shortfall);
        }
    }

    private void Add(int halfHours, int? minutes, int? fromPeak, double shortfall) =>
        _log.Add(new Recovery(At(halfHours), -700, 40, Minutes(minutes), shortfall) { FromPeak = Minutes(fromPeak) });

    private static TimeSpan? Minutes(int? minutes) => minutes is { } known ? TimeSpan.FromMinutes(known) : null;

    private static Stamp At(int halfHours) => new(DateTimeOffset.UnixEpoch.AddMinutes(30 * halfHours), TimeSpan.FromMinutes(30 * halfHours), true);
}
