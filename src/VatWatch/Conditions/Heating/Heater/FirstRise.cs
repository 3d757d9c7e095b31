using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// How far the liquor has come since its heater came on for the night, and the least it came in earlier nights after as long. Until layers and walls follow, a slope is that of the
/// layer about the probe, and jumps as the plume reaches it; what all of it together has brought does not. Not thread safe.
/// </summary>
internal sealed class FirstRise
{
    private static readonly TimeSpan Part = TimeSpan.FromMinutes(5);
    private const int Parts = 16;
    private const double GreatestK = 100;

    /// <summary>The first minutes warm the element and its plume.</summary>
    private static readonly TimeSpan Shows = TimeSpan.FromMinutes(25);

    private readonly NightFigures _gains = new(Parts, leastCount: 1, isLeast: true);
    private TimeSpan? _begun;
    private double? _startC;

    /// <summary>Another night begins.</summary>
    /// <param name="at">When the heater came on, as a person or a probe says; null where only the slope shows it, minutes late.</param>
    /// <param name="startC">The liquor then, °C; null where it has yet to be seen.</param>
    public void Begin(TimeSpan? at, double? startC)
    {
        _gains.EndNight();
        (_begun, _startC) = (at, startC);
    }

    /// <summary>It went off, or something went in.</summary>
    public void End() => _begun = null;

    /// <summary>Nothing was read for a while: what was not seen from its start on cannot be judged.</summary>
    public void Interrupt() => _begun = _startC is null ? _begun : null;

    /// <summary>What is seen, and what was usual; null while nothing can be compared.</summary>
    /// <param name="mean">The newest mean.</param>
    /// <param name="estimate">The vat's heat: the losses meanwhile are put back.</param>
    public Risen? Seen(LiquorMean mean, HeatEstimate estimate)
    {
        if (_begun is not { } begun || mean.At < begun)
        {
            return null;
        }

        _startC ??= mean.LiquorC;
        var after = mean.At - begun;
        if (after < Shows || after > HeatTracker.Settled)
        {
            return null;
        }

        var lostK = -estimate.Rate((_startC.Value + mean.LiquorC) / 2, heaterOn: false).KPerHour * after.TotalHours;
        return new(after, mean.LiquorC - _startC.Value + lostK, lostK, _gains.Usual(PartOf(after)));
    }

    /// <summary>A night that is well goes on: what is seen is usual in nights to come.</summary>
    public void Learn(in Risen seen) => _gains.Count(PartOf(seen.After), seen.GainK);

    /// <summary>What to keep for the next run: this night counts as an earlier one then. The least gain of each part, K; null where it is not known.</summary>
    public IReadOnlyList<double?> Kept => [.. Enumerable.Range(0, Parts).Select(i => _gains.WithTonight(i) is { Nights: > 0 } known ? Math.Round(known.Figure, 3) : (double?)null)];

    /// <summary>Takes up what an earlier run kept.</summary>
    public void Restore(IReadOnlyList<double?> kept)
    {
        for (var i = 0; i < Math.Min(Parts, kept.Count); i++)
        {
            var isKnown = kept[i] is { } least && Math.Abs(least) < GreatestK;
            _gains.Restore(i, isKnown ? kept[i]!.Value : 0, isKnown ? 1 : 0);
        }
    }

    private static int PartOf(TimeSpan after) => Math.Clamp((int)(after / Part), 0, Parts - 1);
}

/// <summary>How far the liquor has come.</summary>
/// <param name="After">Since the heater came on.</param>
/// <param name="GainK">What the heater has brought, K: the rise, with the losses put back.</param>
/// <param name="LostK">Those losses, K.</param>
/// <param name="UsualK">The least that it brought in earlier nights by then, K; null while that is not known.</param>
internal readonly record struct Risen(TimeSpan After, double GainK, double LostK, double? UsualK);
