namespace VatWatch.Conditions.Heating.Signals;

/// <summary>Tells a jump up (hot water, a probe put back) from the rise of a heater, however strong that is. Not thread safe.</summary>
internal sealed class LiquorJump
{
    /// <summary>Faster than the heater is known to be by this.</summary>
    private const double FasterKPerMinute = 0.25;

    /// <summary>What rises on at about the same pace for longer is heated: a sheath that follows slows down, water that was poured in stops. Engineering choices.</summary>
    private const double SteadyPace = 0.85;
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(5);

    private (LiquorMean From, double KPerMinute)? _fast;

    /// <summary>Takes in the next mean.</summary>
    /// <param name="before">The one before it.</param>
    /// <param name="mean">The mean.</param>
    /// <param name="grainK">Movement that may be none, K.</param>
    /// <param name="heatingKPerMinute">What the heater is known to bring.</param>
    /// <returns>Whether it jumped.</returns>
    public bool Add(LiquorMean before, LiquorMean mean, double grainK, double heatingKPerMinute)
    {
        var (rise, minutes) = (mean.LiquorC - before.LiquorC, (mean.At - before.At).TotalMinutes);
        var isFast = (rise - grainK) / minutes > FasterKPerMinute + heatingKPerMinute;
        if (_fast is { } fast && mean.LiquorC - fast.From.LiquorC + grainK > SteadyPace * fast.KPerMinute * (mean.At - fast.From.At).TotalMinutes)
        {
            return isFast && mean.At - fast.From.At < Longest;
        }

        _fast = isFast ? (before, rise / minutes) : null;
        return isFast;
    }
}
