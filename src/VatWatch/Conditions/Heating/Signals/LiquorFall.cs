namespace VatWatch.Conditions.Heating.Signals;

/// <summary>What kind of sudden fall the liquor probe shows.</summary>
internal enum FallKind
{
    None,

    /// <summary>A fall is going on and cannot be told yet.</summary>
    Falling,

    /// <summary>A step down that stopped: cold yarn, a top-up.</summary>
    Step,

    /// <summary>Faster and longer than any vat can: the probe hangs in air.</summary>
    OutOfLiquor,
}

/// <summary>
/// Tells a step down (something cold went in) from a fall without end (the probe is out of the liquor). No vat of this kind loses more than
/// 0.05 K/min by itself (heat-balance reference, case A open). Not thread safe.
/// </summary>
internal sealed class LiquorFall
{
    /// <summary>Three times the greatest natural loss, below what the heater would have brought.</summary>
    private const double FallingKPerMinute = 0.15;

    /// <summary>And itself faster than the natural loss: a heater that goes off is no fall.</summary>
    private const double LeastFallKPerMinute = 0.08;

    /// <summary>Cold yarn costs 0.7 to 2.3 K (heat-balance reference, worked example 5), a top-up of a fifth of the vat 5 K; both stop within minutes.</summary>
    private const double LeastStepK = 0.3;
    private const double LongFallKPerMinute = 0.25;

    /// <summary>So much of the way to the room no top-up takes that leaves the vat a vat; and so much it must be to be told from one at all, K. Engineering choices.</summary>
    private const double AirShare = 0.34;
    private const double LeastAirK = 4;

    /// <summary>
    /// The probe is back when it shows about what it showed before, and got there as fast as the liquor rose: in the warm air under a lid it follows the liquor that is heated, by a
    /// part of its rise. The share is an engineering choice.
    /// </summary>
    private const double BackWithinK = 1.5;
    private const double RiseShare = 0.7;

    /// <summary>Or when it jumps up as no room does, rests there, and is as warm as a vat may be that has cooled meanwhile.</summary>
    private const double JumpK = 3;
    private const double RestKPerMinute = 0.3;

    /// <summary>The fastest that a small open vat cools, 1/h, and how well the room is known. Engineering choices.</summary>
    private const double FastestLossPerHour = 0.25;
    private const double RoomShare = 0.7;
    private static readonly TimeSpan JumpWithin = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan RestFor = TimeSpan.FromMinutes(3);

    /// <summary>Faster than any heater over what went before: a stray value, and what comes after it is held against what went before it.</summary>
    private const double StrayKPerMinute = 0.6;
    private static readonly TimeSpan StrayFor = TimeSpan.FromMinutes(10);

    private static readonly TimeSpan LongFall = TimeSpan.FromMinutes(8);

    /// <summary>A top-up or a dip that was entered explains a fall for so long.</summary>
    private static readonly TimeSpan Explained = TimeSpan.FromMinutes(15);

    private LiquorMean? _last;
    private LiquorMean _before;
    private LiquorMean _inAir;
    private LiquorMean _coldest;
    private double _roseKPerMinute;
    private LiquorMean? _beforeStray;
    private TimeSpan? _restsSince;
    private double _roomC;
    private double _expectedK;
    private TimeSpan _explainedUntil = TimeSpan.MinValue;

    /// <summary>What is seen now.</summary>
    public FallKind Kind { get; private set; }

    /// <summary>When the fall began.</summary>
    public TimeSpan Since => _before.At;

    /// <summary>How far it fell below where it should have been, K; of a step, when it is over.</summary>
    public double DropK { get; private set; }

    /// <summary>Takes in the next mean.</summary>
    /// <param name="expectedKPerMinute">How fast the liquor rose before and should go on to rise.</param>
    /// <param name="roomC">The room, °C.</param>
    /// <param name="grainK">Movement that may be none, K.</param>
    /// <returns>Whether the state changed.</returns>
    public bool Add(LiquorMean mean, double expectedKPerMinute, double roomC, double grainK)
    {
        var last = _last;
        _last = mean;
        if (last is not { } earlier)
        {
            return false;
        }

        _roomC = roomC;
        var was = Kind;
        var minutes = (mean.At - earlier.At).TotalMinutes;
        var itself = (earlier.LiquorC - mean.LiquorC - grainK) / minutes;
        var fallsBy = itself > LeastFallKPerMinute ? itself + expectedKPerMinute : itself;
        _expectedK += expectedKPerMinute * minutes;
        if (-itself > expectedKPerMinute + StrayKPerMinute && !(mean.At - _beforeStray?.At < StrayFor))
        {
            _beforeStray = earlier;
        }

        Kind = was switch
        {
            FallKind.OutOfLiquor => IsBack(mean) || IsPutBack(mean, (Math.Abs(mean.LiquorC - earlier.LiquorC) - grainK) / minutes) ? FallKind.None : FallKind.OutOfLiquor,
            FallKind.Falling => Follow(mean, fallsBy, roomC),
            _ when fallsBy > FallingKPerMinute => Begin(_beforeStray is { } sound && mean.At - sound.At < StrayFor ? sound : earlier, mean, expectedKPerMinute, minutes),
            _ => FallKind.None,
        };
        return Kind != was;
    }

    /// <summary>Forgets the past, after a gap. A probe out of the liquor stays out.</summary>
    public void Clear()
    {
        _last = null;
        if (Kind != FallKind.OutOfLiquor)
        {
            Kind = FallKind.None;
        }
    }

    /// <summary>
    /// A person entered that something cold goes in. Where it is liquor or water, a probe that was taken to hang in air showed the truth; else it stays out
    /// until it shows again what it showed before: time alone does not tell a cold vat from one that boils beside its probe.
    /// </summary>
    public void Explain(TimeSpan at, bool isLiquor)
    {
        _explainedUntil = at + Explained;
        Kind = isLiquor ? FallKind.None : Kind;
    }

    /// <summary>
    /// A person switches the heater on. Where what the probe shows may be a vat that has cooled, it is taken for the liquor again: whether it warms up as it should
    /// tells better now.
    /// </summary>
    public void Reconsider()
    {
        if (Kind == FallKind.OutOfLiquor && _last is { } last && last.LiquorC >= CooledC(last.At))
        {
            Kind = FallKind.None;
        }
    }

    private bool IsBack(LiquorMean mean)
    {
        _coldest = mean.LiquorC < _coldest.LiquorC ? mean : _coldest;
        return mean.LiquorC > _before.LiquorC - BackWithinK && mean.LiquorC - _coldest.LiquorC >= RiseShare * _roseKPerMinute * (mean.At - _coldest.At).TotalMinutes;
    }

    private bool IsPutBack(LiquorMean mean, double movesKPerMinute)
    {
        if (mean.LiquorC < _inAir.LiquorC + JumpK)
        {
            _inAir = mean.LiquorC < _inAir.LiquorC || mean.At - _inAir.At > JumpWithin ? mean : _inAir;
            _restsSince = null;
            return false;
        }

        _restsSince = movesKPerMinute < RestKPerMinute ? _restsSince ?? mean.At : null;
        return mean.At - _restsSince >= RestFor && mean.LiquorC >= CooledC(mean.At);
    }

    /// <summary>As cold as the liquor may have become since the probe left it.</summary>
    private double CooledC(TimeSpan at) => _roomC + RoomShare * Math.Max(0, _before.LiquorC - _roomC) * Math.Exp(-FastestLossPerHour * (at - _before.At).TotalHours);

    private FallKind Begin(LiquorMean earlier, LiquorMean mean, double expectedKPerMinute, double minutes)
    {
        _before = earlier;
        _roseKPerMinute = Math.Max(0, expectedKPerMinute);
        _expectedK = expectedKPerMinute * minutes;
        DropK = earlier.LiquorC + _expectedK - mean.LiquorC;
        return FallKind.Falling;
    }

    private FallKind Follow(LiquorMean mean, double fallsBy, double roomC)
    {
        DropK = _before.LiquorC + _expectedK - mean.LiquorC;
        var isLong = mean.At - _before.At >= LongFall && fallsBy > LongFallKPerMinute;
        var isDeep = DropK > Math.Max(LeastAirK, AirShare * (_before.LiquorC - roomC));
        if ((isLong || isDeep) && mean.At > _explainedUntil)
        {
            _inAir = mean;
            _coldest = mean;
            return FallKind.OutOfLiquor;
        }

        if (fallsBy > FallingKPerMinute)
        {
            return FallKind.Falling;
        }

        return DropK >= LeastStepK && _before.LiquorC - mean.LiquorC >= LeastStepK / 2 ? FallKind.Step : FallKind.None;
    }
}
