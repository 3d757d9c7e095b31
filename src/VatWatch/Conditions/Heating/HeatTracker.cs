using VatWatch.Conditions.Heating.Heater;
using VatWatch.Conditions.Heating.Learning;
using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating;

/// <summary>
/// Follows one vat's liquor minute by minute: makes means, finds regimes (heater on or off, nothing disturbing), lets the heat balance learn
/// from them, and notices steps, falls and thermostat edges. Not thread safe.
/// </summary>
internal sealed class HeatTracker
{
    /// <summary>Mixing after a heater edge, and after something went in: heat-balance reference, 2 to 5 min.</summary>
    private static readonly TimeSpan EdgeLag = TimeSpan.FromMinutes(3);
    private static readonly TimeSpan DisturbanceLag = TimeSpan.FromMinutes(5);

    /// <summary>After a person's act; the yarn hangs in for some minutes and the lid is off.</summary>
    private static readonly TimeSpan ActLag = TimeSpan.FromMinutes(12);

    /// <summary>Means this far apart (in stretches) are not joined.</summary>
    private const double GapStretches = 2.5;

    /// <summary>Slope now: long enough for 0.03 K/h at ordinary noise, short enough that the losses do not bend it.</summary>
    private static readonly TimeSpan LineLength = TimeSpan.FromMinutes(20);
    private static readonly TimeSpan LeastLine = TimeSpan.FromMinutes(4.5);

    /// <summary>The heater's state shows in this much of slope.</summary>
    private static readonly TimeSpan HeaterLine = TimeSpan.FromMinutes(6.5);
    private const double NoiseMinutesPerK = 150;

    /// <summary>A rise that has kept this share of its slope goes on.</summary>
    private const double SteadyShare = 0.75;

    /// <summary>An edge shows in that slope within this time.</summary>
    private static readonly TimeSpan EdgeSeenWithin = TimeSpan.FromMinutes(6);

    /// <summary>Once a long heating has shown the power, what a thermostat's short turns show of it teaches nothing: the layer about the probe lags by this much.</summary>
    private static readonly TimeSpan ShortTurn = TimeSpan.FromMinutes(20);

    /// <summary>Layers and walls take this long to follow a heater that came on; until then a slope is that of the place where the probe hangs.</summary>
    public static readonly TimeSpan Settled = TimeSpan.FromMinutes(70);

    /// <summary>Above the band by more than a thermostat's spread.</summary>
    public const double AboveBandK = 0.5;

    /// <summary>A fall after a cut-off that is more than the wander of the place where the probe hangs, K.</summary>
    private const double LeastFallK = 0.15;

    private readonly TimeSpan _stretch;
    private readonly double _lowC;
    private readonly double _highC;
    private readonly double _limitC;
    private readonly MeanAggregator _aggregator;
    private readonly ThermometerResolution _resolution = new();
    private readonly RepeatedValue _repeated = new();
    private readonly LiquorJump _jump = new();
    private readonly List<LiquorMean> _means = [];
    private readonly Queue<LiquorMean> _unlearned = new();
    private TimeSpan _regime = TimeSpan.MinValue;
    private TimeSpan _undisturbed = TimeSpan.MinValue;
    private bool? _regimeOn;
    private double? _steadyKPerHour;
    private LiquorMean? _last;
    private (TimeSpan From, double StepK, RateLine? Line)? _line;
    private TimeSpan? _switchedOffAt;

    public HeatTracker(VatDefinition vat)
    {
        Prior = HeatPrior.Of(vat);
        WarmUp = new WarmUpTracker(vat);
        Earlier = new EarlierNights(vat);
        Thermostat = new ThermostatCuts(vat.Temperature.LowC);
        _lowC = vat.Temperature.LowC;
        _highC = vat.Temperature.HighC;
        _limitC = vat.Temperature.LimitC;
        Balance = new HeatBalance(Prior);
        _stretch = vat.StretchOf(Quantity.Temperature);
        _aggregator = new MeanAggregator(_stretch);
    }

    public HeatPrior Prior { get; }

    public HeatBalance Balance { get; }

    /// <summary>What this night is held against.</summary>
    public EarlierNights Earlier { get; }

    public HeaterStateDetector Heater { get; } = new();

    public ThermostatCuts Thermostat { get; }

    /// <summary>Above this the heater does not follow its thermostat, °C; null without one.</summary>
    public double? StuckAboveC => Thermostat.StuckAboveC(_resolution.StepK, _limitC, _steadyKPerHour);

    /// <summary>Above this no thermostat is set to cut off, °C: one that is known says better than the band where heating should end. Above the band a thermometer's step may be all of it.</summary>
    public double EndsC => StuckAboveC is { } stuckC && stuckC < _limitC ? stuckC : _highC + AboveBandK + StepK;

    /// <summary>Whether a person entered that the heater is off, and nothing has shown it on since.</summary>
    public bool IsSwitchedOff => _switchedOffAt is not null;

    /// <summary>Step of the thermometer that is followed, K.</summary>
    public double StepK => _resolution.StepK;

    /// <summary>Movement of it that may be none, K.</summary>
    public double GrainK => _resolution.K;

    public LiquorFall Fall { get; } = new();

    /// <summary>The warm-up that may have been begun.</summary>
    public WarmUpTracker WarmUp { get; }

    /// <summary>Since when the present regime holds, mixing over.</summary>
    public TimeSpan RegimeSince => _regime;

    /// <summary>The newest mean; null before the first.</summary>
    public LiquorMean? Newest => _last;

    /// <summary>The newest step down: when it began and how far, K; null when there was none.</summary>
    public (TimeSpan Since, double DropK)? Step { get; private set; }

    /// <summary>Takes in a sample of the liquor probe that is followed; returns whether it says anything of how the liquor moves.</summary>
    public bool Add(TimeSpan at, double liquorC, double? roomC)
    {
        _resolution.Add(liquorC);
        var isPast = liquorC > EndsC;
        _repeated.Add(at, liquorC, _resolution.StepK, Line(LineLength)?.KPerHour, liquorC < _lowC && !IsSwitchedOff, isPast && !IsSwitchedOff, roomC ?? Prior.RoomC);
        if (isPast && _repeated.IsDoubtful)
        {
            // Where heating should have ended, a value that suddenly stands still does not say that it has.
            return false;
        }

        if (_aggregator.Add(at, liquorC, roomC) is { } mean)
        {
            Take(mean);
        }

        return true;
    }

    /// <summary>Since when the thermometer repeats one value though several of its steps have come due; null otherwise.</summary>
    public TimeSpan? FrozenSince => _repeated.FrozenSince;

    /// <summary>Another probe is followed from now on: what was begun is dropped.</summary>
    public void ChangeProbe(TimeSpan at)
    {
        _aggregator.Clear();
        Interrupt(at);
        _resolution.Clear(another: true);
        _repeated.Clear();
    }

    /// <summary>A person did something.</summary>
    public void Note(VatAct act)
    {
        switch (act.Kind)
        {
            case VatActKind.HeaterOn:
                Fall.Reconsider();
                WarmUp.Begin(act);
                Heats(act.At.Monotonic, act.At.Monotonic, liquorC: null);
                Thermostat.Switched();
                _switchedOffAt = null;
                return;
            case VatActKind.HeaterOff:
                WarmUp.End();
                Earlier.FirstRise.End();
                Thermostat.Switched();
                _switchedOffAt = act.At.Monotonic;
                return;
            case VatActKind.TopUp or VatActKind.MadeAnew or VatActKind.Dip:
                Fall.Explain(act.At.Monotonic, isLiquor: act.Kind != VatActKind.Dip);
                break;
        }

        if (act.Kind is VatActKind.LidOff or VatActKind.LidOn)
        {
            Balance.TellLid(act.Kind == VatActKind.LidOff, act.At.Monotonic);
        }

        Disturb(act.At.Monotonic + (act.Kind is VatActKind.Dip or VatActKind.TopUp or VatActKind.MadeAnew ? ActLag : DisturbanceLag));
    }

    /// <summary>What can be said of the heat with the liquor at <paramref name="liquorC"/>.</summary>
    public HeatSnapshot Evaluate(double liquorC, double? roomC)
    {
        var estimate = Balance.Estimate(roomC);
        var line = Line(LineLength);
        var on = Heater.IsOn;
        var rateOn = estimate.Rate(liquorC, heaterOn: true);
        if (on != false && line is { } seen)
        {
            rateOn = CombinedRate.Of(estimate, liquorC, Slope(seen, estimate), _last!.Value.At - _regime);
        }

        var rate = line is { } l ? Slope(l, estimate).KPerHour : on is { } known && Fall.Kind == FallKind.None ? estimate.Rate(liquorC, known).KPerHour : (double?)null;
        return new HeatSnapshot(estimate, line, on, rate, rateOn);
    }

    /// <summary>The slope of the last minutes that lies wholly after <paramref name="from"/>, whatever the heater was taken for; null with too few means.</summary>
    public RateLine? LineAfter(TimeSpan from) =>
        _means.Count == 0 ? null : RateLine.Through(_means, TimeMath.Max(from, RecentFrom), _resolution.StepK);

    private void Take(LiquorMean mean)
    {
        var last = _last;
        _last = mean;
        if (last is { } earlier && (mean.At - earlier.At) > GapStretches * _stretch)
        {
            Interrupt(mean.At);
        }

        _resolution.Add(mean);
        if (Fall.Add(mean, ExpectedKPerHour(mean) / 60, mean.RoomC ?? Prior.RoomC, _resolution.K) || Fall.Kind is FallKind.Falling or FallKind.OutOfLiquor)
        {
            if (Fall.Kind == FallKind.OutOfLiquor && !Balance.OpenWasTold)
            {
                // What its losses said of the lid is old when the probe is back.
                Balance.TellLid(off: false, mean.At);
            }

            Step = Fall.Kind == FallKind.Step ? (Fall.Since, Fall.DropK) : Step;
            Disturb(mean.At + (Fall.Kind == FallKind.None ? TimeSpan.Zero : DisturbanceLag));
        }
        else if (last is { } before && _jump.Add(before, mean, _resolution.K, Balance.Estimate(mean.RoomC).HeatingKPerHour / 60))
        {
            Disturb(mean.At + DisturbanceLag);
        }

        WarmUp.Add(mean, Balance.Estimate(mean.RoomC), _resolution.StepK);
        if (mean.At < _undisturbed)
        {
            return;
        }

        _means.Add(mean);
        _line = null;
        if (_means.Count > 2 * 60)
        {
            _means.RemoveRange(0, 60);
        }

        FollowHeater(mean);
        Thermostat.Follow(mean, _resolution.K, IsSwitchedOff || mean.LiquorC >= _limitC || (Heater.IsTold && Heater.IsOn == false) ? 0 : -Balance.Estimate(mean.RoomC).Rate(mean.LiquorC, heaterOn: false).KPerHour);
        if (Heater.IsOn is { } on && mean.At >= _regime && !(on && IsThermostatsTurn(mean)))
        {
            Learn(mean, on);
        }
    }

    /// <summary>Whether a heating that teaches nothing: too short, or one that a thermostat may have ended unseen.</summary>
    private bool IsThermostatsTurn(LiquorMean mean) =>
        Balance.Usual is not null && (mean.At < _regime + ShortTurn || Thermostat.MayAct(mean.LiquorC) || (!Heater.IsTold && mean.LiquorC > Thermostat.OnC));

    /// <summary>An edge that only the slope shows is seen minutes late: what was measured in them must not be learned with the wrong heater state.</summary>
    private void Learn(LiquorMean mean, bool heaterOn)
    {
        _unlearned.Enqueue(mean);
        var sure = Heater.IsTold ? mean.At : mean.At - Coarser(EdgeSeenWithin, 0.02);
        while (_unlearned.Count > 0 && _unlearned.Peek().At <= sure)
        {
            Balance.Add(_unlearned.Dequeue(), heaterOn, _resolution.StepK, Earlier.Rates.At(heaterOn, mean.LiquorC));
        }
    }

    private double ExpectedKPerHour(LiquorMean mean) =>
        Line(LineLength)?.KPerHour ?? (Heater.IsOn is { } on ? Balance.Estimate(mean.RoomC).Rate(mean.LiquorC, on).KPerHour : 0);

    private void FollowHeater(LiquorMean mean)
    {
        var recent = LineAfter(TimeSpan.MinValue);
        Heater.Evaluate(mean.At, Telling(recent, RecentFrom), Balance.Estimate(mean.RoomC));
        _steadyKPerHour = recent is { } now && Line(LineLength) is { } before && now.KPerHour - now.Sigma > SteadyShare * before.KPerHour ? before.KPerHour : null;
        if (Heater.IsOn == true)
        {
            Heats(mean.At, Heater.IsTold ? Heater.Since : null, _means.FindIndex(held => held.At >= Heater.Since) is >= 0 and var first ? _means[first].LiquorC : mean.LiquorC);
        }

        if (Heater.IsOn == true && (Heater.IsTold ? Heater.Since >= _switchedOffAt : recent is { Rises: true } rise && mean.At - rise.Span >= _switchedOffAt + EdgeLag && rise.KPerHour - rise.Sigma > Balance.Estimate(mean.RoomC).HalfWayKPerHour(mean.LiquorC)))
        {
            _switchedOffAt = null;
        }

        if (Heater.IsOn == _regimeOn)
        {
            return;
        }

        Earlier.HeaterTurned();
        if (_regimeOn == true && Heater.IsOn == false)
        {
            Earlier.FirstRise.End();
            if (!IsSwitchedOff)
            {
                Thermostat.WentOff(mean.At, Peak(mean.At));
            }
        }
        else if (_regimeOn == false && Heater.IsOn == true)
        {
            Earlier.Rates.CameOn(afterCut: Thermostat.WentOn(mean.At, Trough(mean), Heater.IsTold ? 0 : Math.Max(_resolution.K, LeastFallK)));
        }

        var begins = _regimeOn is null && Heater.Since <= mean.At ? TimeMath.Max(Heater.Since, _undisturbed) : Heater.Since + EdgeLag;
        _regimeOn = Heater.IsOn;
        Begin(TimeMath.Max(begins, _undisturbed));
    }

    /// <summary>What was known of the vat before this night is what it is held against.</summary>
    private void Heats(TimeSpan at, TimeSpan? toldAt, double? liquorC)
    {
        if (Earlier.Heats(at, toldAt, liquorC))
        {
            Balance.BeginWarmUp();
        }
    }

    private RateLine? Line(TimeSpan length)
    {
        if (_means.Count == 0 || Heater.IsOn is null || Heater.IsOn != _regimeOn)
        {
            return null;
        }

        var (from, stepK) = (TimeMath.Max(TimeMath.Max(_regime, _undisturbed), _means[^1].At - TimeMath.Max(Coarser(length, 0.01), 6 * _stretch)), _resolution.StepK);
        if (_line is not { } known || known.From != from || known.StepK != stepK)
        {
            // Asked for at every sample and every second, and the same until the next mean.
            var line = RateLine.Through(_means, from, stepK);
            _line = known = (from, stepK, Telling(line, from));
        }

        return known.Line;
    }

    /// <summary>A line that is long enough to say anything, or a brisker one that a coarse thermometer shows within it.</summary>
    private RateLine? Telling(RateLine? line, TimeSpan from) =>
        RateLine.Brisker(line?.Span >= TimeMath.Max(Coarser(LeastLine, 0.03), 3 * _stretch) ? line : null, _means, from, TimeMath.Max(LeastLine, 3 * _stretch), _resolution.StepK);

    /// <summary>The slope brought from the middle of its line to now: it bends by the losses.</summary>
    private (double KPerHour, double Sigma) Slope(RateLine line, HeatEstimate estimate)
    {
        var bend = Math.Exp(-estimate.LossPerHour * (_last!.Value.At - line.MeanAt).TotalHours);
        return (line.KPerHour * bend, line.Sigma);
    }

    private void Disturb(TimeSpan until)
    {
        _undisturbed = TimeMath.Max(_undisturbed, until);
        _means.Clear();
        WarmUp.Disturb(until);
        Earlier.FirstRise.End();
        Heater.ForgetSlope(until);
        Begin(_undisturbed);
    }

    private void Interrupt(TimeSpan at)
    {
        _means.Clear();
        _resolution.Clear(another: false);
        Fall.Clear();
        Earlier.FirstRise.Interrupt();
        Heater.ForgetSlope(at);
        Begin(at);
    }

    private void Begin(TimeSpan at)
    {
        _regime = at;
        _unlearned.Clear();
        Balance.BreakOff();
    }

    /// <summary>A length of line, or the longer one in which a rise this slow, K/min, makes a step of the thermometer.</summary>
    private TimeSpan Coarser(TimeSpan length, double kPerMinute) => TimeMath.Max(length, TimeSpan.FromMinutes(_resolution.StepK / kPerMinute));

    /// <summary>Where the line begins in which an edge of the heater shows.</summary>
    private TimeSpan RecentFrom => TimeMath.Max(_undisturbed, _means[^1].At - RecentLength);

    /// <summary>The length of line in which an edge of the heater shows.</summary>
    private TimeSpan RecentLength => TimeMath.Max(TimeMath.Max(Coarser(HeaterLine, 0.02), Noisier), 4 * _stretch);

    /// <summary>So long a line lets the noise of the means look like no more than a slow heater's rise.</summary>
    private TimeSpan Noisier => TimeSpan.FromMinutes(NoiseMinutesPerK * _resolution.NoiseK);

    /// <summary>The warmest mean of the minutes in which a cut-off shows.</summary>
    private double Peak(TimeSpan now) => Furthest(now - Coarser(LineLength, 0.02), double.NegativeInfinity, Math.Max);

    /// <summary>The coolest mean since the heater last went off, of those that are held.</summary>
    private double Trough(LiquorMean now) => Furthest(_regime, now.LiquorC, Math.Min);

    private double Furthest(TimeSpan since, double liquorC, Func<double, double, double> of)
    {
        foreach (var mean in _means)
        {
            liquorC = mean.At >= since ? of(liquorC, mean.LiquorC) : liquorC;
        }

        return liquorC;
    }
}
