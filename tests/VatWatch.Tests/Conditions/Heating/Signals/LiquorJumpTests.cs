using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Tests.Conditions.Heating.Signals;

public sealed class LiquorJumpTests
{
    /// <summary>2 kW in 25 L bring 62 K/h.</summary>
    private const double StrongKPerMinute = 62.0 / 60;
    private const double KnownKPerMinute = 0.14;
    private readonly LiquorJump _jump = new();

    [Theory]
    [InlineData(0.02)]
    [InlineData(0.5)]
    public void What_rises_on_at_one_pace_is_heated_however_strong_its_heater_must_be(double stepK)
    {
        var jumps = Jumps(20, stepK, minute => 20 + StrongKPerMinute * minute);
        Assert.Contains(true, jumps[..4]);
        Assert.DoesNotContain(true, jumps[6..]);
    }

    [Fact]
    public void Hot_water_is_a_jump_and_what_follows_it_is_none()
    {
        var jumps = Jumps(20, 0.02, minute => 20 + 5 * Math.Clamp(minute - 5, 0, 2));
        Assert.Equal([5, 6], Enumerable.Range(0, jumps.Length).Where(i => jumps[i]));
    }

    [Fact]
    public void A_probe_that_is_put_back_jumps_for_as_long_as_its_sheath_follows()
    {
        var jumps = Jumps(20, 0.02, minute => 45 - 24 * Math.Exp(-minute / 4));
        Assert.DoesNotContain(false, jumps[..9]);
    }

    /// <summary>Whether each of so many minutes jumped.</summary>
    private bool[] Jumps(int minutes, double stepK, Func<double, double> liquorC)
    {
        return [.. Enumerable.Range(0, minutes).Select(minute => _jump.Add(At(minute), At(minute + 1), stepK, KnownKPerMinute))];

        LiquorMean At(int minute) => new(TimeSpan.FromMinutes(minute), Math.Round(liquorC(minute) / stepK) * stepK, null, 6);
    }
}
