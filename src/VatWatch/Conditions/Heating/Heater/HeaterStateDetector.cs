using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// Whether the heater heats: as a heater probe says where there is one, otherwise by the slope of the liquor, on above half-way between the
/// rates expected with and without it (heat-balance reference, "heater state unknown"). A probe that says off while the liquor rises as it
/// only does with the heater on is not believed. Not thread safe.
/// </summary>
internal sealed class HeaterStateDetector
{
    /// <summary>The threshold is crossed for good only by this share of the heating rate.</summary>
    private const double HysteresisShare = 0.12;

    private const double MostHysteresisKPerHour = 0.3;

    /// <summary>A slope must be this sure of its side of the threshold.</summary>
    private const double SureDeviations = 2;

    /// <summary>A slope over several minutes shows an edge about half its length late.</summary>
    private static readonly TimeSpan SlopeDelay = TimeSpan.FromMinutes(3);

    /// <summary>A probe that says off is overruled after this long; heat-balance reference, 10 to 15 min for a heater stuck on.</summary>
    private static readonly TimeSpan Overruled = TimeSpan.FromMinutes(10);

    private bool? _told;
    private TimeSpan _toldSince;
    private bool? _sloped;
    private TimeSpan _slopedSince;

    /// <summary>Whether it heats; null while that is not known.</summary>
    public bool? IsOn { get; private set; }

    public TimeSpan Since { get; private set; }

    /// <summary>Whether a probe says so, fresh.</summary>
    public bool IsTold => _told is not null;

    /// <summary>Since when the liquor has risen as with the heater on though the probe says off; null when it has not.</summary>
    public TimeSpan? RisesThoughOffSince => _told == false && _sloped == true ? TimeMath.Max(_toldSince, _slopedSince) : null;

    /// <summary>What the heater probe says; null when it says nothing that can be used.</summary>
    public void Tell(TimeSpan at, bool? on)
    {
        if (on != _told)
        {
            _told = on;
            _sloped = on is null ? _sloped : null;
            _toldSince = at;
            Settle(at);
        }
    }

    /// <summary>Looks at the slope of the last few minutes, whatever the regime; null when there is none.</summary>
    public void Evaluate(TimeSpan at, RateLine? line, HeatEstimate estimate)
    {
        if (line is { } seen && (_told is null || at - seen.Span >= _toldSince))
        {
            // After a cut-off warm layers sink to the probe for a while: a probe that says off is doubted only for a rise that a heater makes.
            var over = seen.KPerHour - (_told == false ? estimate.HalfWayKPerHour(seen.NewestC) : estimate.HeaterThresholdKPerHour(seen.NewestC));
            var needed = _sloped is null ? 0 : Math.Min(HysteresisShare * estimate.LeastHeatingKPerHour, MostHysteresisKPerHour);
            var side = over > 0;
            if (side != _sloped && Math.Abs(over) > Math.Max(needed, SureDeviations * seen.Sigma))
            {
                var first = _sloped is null;
                _sloped = side;
                _slopedSince = first ? at - seen.Span : at - SlopeDelay;
            }
        }

        Settle(at);
    }

    /// <summary>The slope says nothing any more, after a gap.</summary>
    public void ForgetSlope(TimeSpan at)
    {
        _sloped = null;
        Settle(at);
    }

    private void Settle(TimeSpan at)
    {
        var overruled = RisesThoughOffSince is { } since && at - since >= Overruled;
        var (on, from) = _told is { } told && !overruled ? (told, _toldSince) : (_sloped, _slopedSince);
        if (on != IsOn)
        {
            IsOn = on;
            Since = from;
        }
    }
}
