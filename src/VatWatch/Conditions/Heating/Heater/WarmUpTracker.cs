using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Heater;

/// <summary>
/// Follows a warm-up that was begun, by a person's entry, a heater probe or a heater's command, until the liquor is in its band or the heater is switched off: how
/// much it should rise at least, and since when it does not. Not thread safe.
/// </summary>
internal sealed class WarmUpTracker(VatDefinition vat)
{
    /// <summary>A rise below this share of the least plausible one is a warm-up that fails.</summary>
    private const double SlowShare = 0.5;

    /// <summary>A room, a wall and a stir change a slow rise by this, K/h.</summary>
    private const double LeastMissingKPerHour = 1;

    /// <summary>And a rise in all by so much, K; a rise that had failed ends that once it has brought as much.</summary>
    private const double LeastMissingK = 2;

    /// <summary>Sure of its side by this many standard errors.</summary>
    private const double SureDeviations = 1.645;

    /// <summary>From a share of the least plausible rise on, something heats: then it is a lid or a weak heater.</summary>
    private const double HeatsShare = 0.2;

    /// <summary>A probe this much warmer than the room does not hang in air.</summary>
    private const double RoomWithinK = 6;

    /// <summary>Below this a heater that comes on holds the vat and does not warm it up, K.</summary>
    private const double LeastWarmUpK = 1;

    /// <summary>The element and the sheath of the thermometer warm first.</summary>
    private static readonly TimeSpan Delay = TimeSpan.FromMinutes(5);

    /// <summary>So much of slope tells a rise from none; more where the steps of the thermometer hide it.</summary>
    private static readonly TimeSpan LeastLine = TimeSpan.FromMinutes(15);
    private static readonly TimeSpan Line = TimeSpan.FromMinutes(20);

    /// <summary>What went before a failure is out of this much of slope once the failure is told.</summary>
    private static readonly TimeSpan Recent = TimeSpan.FromMinutes(10);

    /// <summary>Two hours of minutes.</summary>
    private const int MostMeans = 120;

    private readonly List<LiquorMean> _means = [];
    private Stamp? _since;
    private bool _wasEntered;
    private DateTimeOffset? _readyBy;
    private double? _startC;
    private TimeSpan _startAt;
    private WarmUpEdges _edges;
    private HeatEstimate? _known;
    private TimeSpan _judgedFrom;
    private TimeSpan? _slowSince;
    private LiquorMean? _from;
    private double _lowestC;
    private RateLine? _line;
    private RateLine? _recent;
    private double? _newestC;
    private double _leastKPerHour;

    /// <summary>Whether a warm-up was begun that does not come, as far as can be said.</summary>
    public bool IsSlow => _since is not null && _slowSince is not null;

    /// <summary>A person switched the heater on.</summary>
    public void Begin(VatAct act)
    {
        Start(act.At, wasEntered: true);
        _readyBy = act.ReadyBy;
    }

    /// <summary>
    /// Takes in whether power flows by a heater probe, or is commanded; null where that is not known. With power a cold liquor begins to warm up; without it, what
    /// nobody entered is over.
    /// </summary>
    public void Follow(Stamp at, bool? power)
    {
        if (power == true && _since is null && _newestC < vat.Temperature.LowC - LeastWarmUpK)
        {
            Start(at, wasEntered: false);
            _readyBy = null;
        }
        else if (power == false && !_wasEntered)
        {
            End();
        }
    }

    /// <summary>The heater was switched off, or the liquor is warm.</summary>
    public void End() => _since = null;

    /// <summary>Something went in, or the probe was moved: what was measured before says nothing about the rise after.</summary>
    public void Disturb(TimeSpan until)
    {
        _means.Clear();
        (_slowSince, _from) = (null, null);
        _judgedFrom = until > _judgedFrom ? until : _judgedFrom;
    }

    /// <summary>Takes in the next mean of the liquor.</summary>
    public void Add(LiquorMean mean, HeatEstimate estimate, double stepK)
    {
        _newestC = mean.LiquorC;
        if (_since is not { } since || mean.At < since.Monotonic)
        {
            return;
        }

        if (mean.LiquorC >= vat.Temperature.LowC)
        {
            End();
            return;
        }

        if (_startC is null)
        {
            (_startC, _startAt, _known) = (mean.LiquorC, mean.At, estimate);
            _edges = WarmUpEdges.Of(estimate, mean.LiquorC);
            _judgedFrom = mean.At + Delay;
        }

        if (mean.At >= _judgedFrom)
        {
            _from ??= mean;
            _means.Add(mean);
            Judge(mean, _known!, stepK);
        }
    }

    /// <summary>What is expected and seen at a moment; null when none was begun.</summary>
    public WarmUp? Evaluate(Stamp now, double? liquorC, HeatEstimate estimate, bool? powerFlows, ForecastAnswer toBand) => _since is not { } since ? null : new WarmUp
    {
        Since = since,
        WasEntered = _wasEntered,
        ReadyBy = _readyBy,
        StartC = _startC,
        ExpectedRiseK = _startC is null ? new(0, 0) : _edges.Rise(now.Monotonic - _startAt),
        RiseK = liquorC - _startC,
        RateKPerHour = _line?.KPerHour,
        LeastKPerHour = _line is null ? null : _leastKPerHour,
        SlowSince = _slowSince is { } slow ? now.Plus(slow - now.Monotonic) : null,
        Causes = _slowSince is null ? [] : [.. Causes(liquorC ?? _startC ?? estimate.RoomC, estimate.RoomC, powerFlows)],
        Ready = toBand.Forecast,
        Edges = _edges,
    };

    private void Start(Stamp at, bool wasEntered)
    {
        _since = at;
        _wasEntered = wasEntered;
        _startC = null;
        (_slowSince, _from) = (null, null);
        _line = _recent = null;
        _means.Clear();
    }

    private void Judge(LiquorMean mean, HeatEstimate known, double stepK)
    {
        _line = RateLine.Through(_means, mean.At - Longer(Line, stepK / 0.02), stepK);
        _recent = RateLine.Through(_means, mean.At - Longer(Recent, stepK / 0.03), stepK);
        _leastKPerHour = WarmUpEdges.Of(known, mean.LiquorC).Low.KPerHour;
        var most = Math.Min(SlowShare * _leastKPerHour, _leastKPerHour - LeastMissingKPerHour);
        if (_line is { } line && line.Span >= Longer(LeastLine, stepK / 0.03))
        {
            var isSlow = line.KPerHour + SureDeviations * line.Sigma < most || (line.KPerHour < _leastKPerHour && FallsShort(mean, known, stepK));
            _lowestC = _slowSince is null ? mean.LiquorC : Math.Min(_lowestC, mean.LiquorC);

            // A room that warms by turns lets a probe in air rise by turns: only a rise as is to be expected ends it.
            if (isSlow)
            {
                _slowSince ??= mean.At - line.Span;
            }
            else if (line.KPerHour > _leastKPerHour && mean.LiquorC > _lowestC + LeastMissingK)
            {
                (_slowSince, _from) = (null, mean);
            }
        }

        if (_means.Count > MostMeans)
        {
            _means.RemoveRange(0, MostMeans / 2);
        }
    }

    /// <summary>A weak heater's slope is lost in what rooms, walls and steps do to it; in hours its rise is not.</summary>
    private bool FallsShort(LiquorMean mean, HeatEstimate known, double stepK)
    {
        var least = WarmUpEdges.Of(known, _from!.Value.LiquorC).Rise(mean.At - _from.Value.At).Low;
        var risen = mean.LiquorC - _from.Value.LiquorC;
        return risen < SlowShare * least && least - risen > LeastMissingK + stepK;
    }

    private static TimeSpan Longer(TimeSpan length, double minutes) => TimeSpan.FromMinutes(Math.Max(length.TotalMinutes, minutes));

    private IEnumerable<WarmUpCause> Causes(double liquorC, double roomC, bool? powerFlows)
    {
        var heats = _recent?.KPerHour > HeatsShare * _leastKPerHour;
        var repeats = _means.TrueForAll(mean => Math.Abs(mean.LiquorC - _means[0].LiquorC) < 1e-9);
        if (powerFlows == true)
        {
            yield return WarmUpCause.ProbeNotInLiquor;
            yield return heats ? WarmUpCause.LidOffOrWeakHeater : WarmUpCause.ElementNotInLiquor;
            if (repeats)
            {
                yield return WarmUpCause.ProbeStopped;
            }

            yield break;
        }

        if (heats)
        {
            yield return WarmUpCause.LidOffOrWeakHeater;
        }

        if (liquorC < roomC + RoomWithinK)
        {
            yield return WarmUpCause.ProbeNotInLiquor;
        }

        if (!heats)
        {
            yield return WarmUpCause.HeaterNotOn;
            yield return WarmUpCause.NoSupply;
        }

        if (repeats)
        {
            yield return WarmUpCause.ProbeStopped;
        }
    }
}
