using VatWatch.Conditions.Heating.Signals;

namespace VatWatch.Conditions.Heating.Learning;

/// <summary>
/// Learns a vat's heating and loss rate from windows of 5 min within one regime: heater on or off throughout, nothing put in, no gap, the
/// mixing after a change over. Method and guards as in the heat-balance reference, "online identification". Not thread safe.
/// </summary>
internal sealed class HeatBalance
{
    /// <summary>An hour of windows makes a night that counts.</summary>
    private const double HoursOfANight = 0.98;

    private const double FirstNoiseK = 0.03;
    private const double LeastNoiseK = 0.006;
    private const double GreatestNoiseK = 0.1;
    private const double NoiseMemory = 0.05;

    /// <summary>Both ends of a window lie somewhere within a step: √2/√12, a little less where noise carries a value over several.</summary>
    private const double StepShare = 0.35;

    /// <summary>A window further off than this holds an event nobody told of.</summary>
    private const double OutlierDeviations = 6;
    private const double OutlierK = 0.15;

    /// <summary>With the heater on, a window this far off waits for the verdict of those that follow: a power that has changed must not be learned as a loss.</summary>
    private const double DoubtfulDeviations = 3;
    private const int OutliersBelieved = 3;

    /// <summary>So many windows in a row in which a heater gives too little say that its power was taken wrong; by then it has been told as weak.</summary>
    private const int TooLittleBelieved = 12;

    /// <summary>A power this well known is one to compare with.</summary>
    private const double TrustedShare = 0.05;

    /// <summary>The lid's power may differ from the estimate this much either way (evaporation ±25 %, freeboard, flower, another shape).</summary>
    private const double LeastLidShare = 0.6;
    private const double GreatestLidShare = 1.8;

    /// <summary>And beyond noise by this many deviations.</summary>
    private const double LidDeviations = 3;

    /// <summary>A lid shows only where evaporation does.</summary>
    private const double LidShowsAboveRoomK = 12;

    private readonly HeatPrior _prior;
    private readonly WindowAggregator _aggregator;
    private readonly ResidualHistory _history = new();
    private readonly HeatRegression _regression;
    private readonly ResidualCusum _cusum = new();
    private readonly double _lossPrior;
    private readonly double _lossSigmaPrior;
    private (double Loss, double Sigma)? _otherLid;
    private double _stepK;
    private double? _rateThen;
    private double _noiseVariance = FirstNoiseK * FirstNoiseK;
    private int _outliers;
    private int _tooLittle;
    private int _windows;
    private int _windowsBefore;
    private int _nightsBefore;
    private double _hours;
    private double _onHours;

    public HeatBalance(HeatPrior prior)
    {
        _prior = prior;
        _aggregator = new WindowAggregator(prior.RoomC);
        _lossPrior = prior.KPerHour(prior.LossWPerK);
        _lossSigmaPrior = prior.KPerHour(prior.LossSigmaWPerK);
        var room = Math.Sqrt(_lossPrior * _lossPrior + _lossSigmaPrior * _lossSigmaPrior) * prior.RoomSigmaK;
        _regression = new HeatRegression(
            [prior.KPerHour(prior.PowerW), _lossPrior, 0],
            [prior.KPerHour(prior.PowerSigmaW), _lossSigmaPrior, room],
            [prior.KPerHour(prior.GreatestPowerW), prior.KPerHour(prior.GreatestLossWPerK), 4 * room]);
    }

    /// <summary>Since when the losses are those of an open vat; null while it is covered or not known to be open.</summary>
    public TimeSpan? OpenSince { get; private set; }

    /// <summary>Whether <see cref="OpenSince"/> was told by a person and not found from the losses.</summary>
    public bool OpenWasTold { get; private set; }

    /// <summary>Power that the lid's absence was found to cost, W.</summary>
    public double? OpenCostsW { get; private set; }

    /// <summary>What the vat was known for before the present warm-up, or after the first hour of the first; null before that.</summary>
    public UsualHeat? Usual { get; private set; }

    /// <summary>Takes up what an earlier run learned, a little less sure than it was.</summary>
    public void Restore(LearnedHeat learned)
    {
        var power = _prior.KPerHour(learned.PowerW);
        var loss = _prior.KPerHour(learned.LossWPerK);
        _regression.Restore(
            power,
            loss,
            Math.Max(_prior.KPerHour(learned.PowerSigmaW) * 1.5, 0.02 * power),
            Math.Max(_prior.KPerHour(learned.LossSigmaWPerK) * 1.5, 0.1 * loss),
            learned.Correlation);
        _otherLid = learned.OpenLossWPerK is { } open && learned.OpenLossSigmaWPerK is { } sigma
            ? (_prior.KPerHour(open), Math.Max(_prior.KPerHour(sigma) * 1.5, 0.1 * _prior.KPerHour(open)))
            : null;
        (_windowsBefore, _nightsBefore) = (learned.Windows, learned.Nights);
        Usual = _nightsBefore > 0 ? Now(isOfEarlier: true) : null;
    }

    /// <summary>What has been learned by now, for keeping.</summary>
    public LearnedHeat Learned(double? thermostatC)
    {
        var now = (Loss: _regression[HeatRegression.Loss], Sigma: _regression.Sigma(HeatRegression.Loss));
        var covered = OpenSince is null ? now : _otherLid ?? (_lossPrior, _lossSigmaPrior);
        var open = OpenSince is null ? _otherLid : now;
        var spread = _regression.Sigma(HeatRegression.Heating) * now.Sigma;
        return new LearnedHeat(
            _prior.Watts(_regression[HeatRegression.Heating]),
            _prior.Watts(_regression.Sigma(HeatRegression.Heating)),
            _prior.Watts(covered.Loss),
            _prior.Watts(covered.Sigma),
            OpenSince is null && spread > 0 ? _regression.Covariance(HeatRegression.Heating, HeatRegression.Loss) / spread : 0,
            open is { } o ? _prior.Watts(o.Loss) : null,
            open is { } s ? _prior.Watts(s.Sigma) : null,
            thermostatC,
            _windowsBefore + _windows,
            _nightsBefore + (_hours >= HoursOfANight ? 1 : 0));
    }

    /// <summary>The estimate; with <paramref name="roomC"/> the room is taken as measured.</summary>
    public HeatEstimate Estimate(double? roomC)
    {
        const int b = HeatRegression.Heating, a = HeatRegression.Loss, c = HeatRegression.Room;
        var estimate = new HeatEstimate
        {
            HeatingKPerHour = _regression[b],
            HeatingVariance = _regression.Covariance(b, b),
            LossPerHour = _regression[a],
            LossVariance = _regression.Covariance(a, a),
            HeatingLossCovariance = _regression.Covariance(b, a),
            ReferenceC = roomC ?? _prior.RoomC,
            CapacityJPerK = _prior.CapacityJPerK,
            Windows = _windowsBefore + _windows,
            EarlierNights = _nightsBefore,
            LidIsOff = OpenSince is not null,
            OtherLidLossPerHour = _otherLid?.Loss,
        };
        return roomC is not null ? estimate : estimate with
        {
            RoomKPerHour = _regression[c],
            RoomVariance = _regression.Covariance(c, c),
            HeatingRoomCovariance = _regression.Covariance(b, c),
            LossRoomCovariance = _regression.Covariance(a, c),
        };
    }

    /// <summary>Drops the window begun: the regime changed.</summary>
    public void BreakOff() => _aggregator.BreakOff();

    /// <summary>A person took the lid off or put it on.</summary>
    public void TellLid(bool off, TimeSpan at)
    {
        if (off != OpenSince is not null)
        {
            SwapLid(off ? at : null);
        }

        OpenWasTold = off;
    }

    /// <summary>Takes in the next mean of the present regime.</summary>
    /// <param name="heaterOn">The regime.</param>
    /// <param name="stepK">Step of the thermometer, K.</param>
    /// <param name="rateThen">How fast the liquor changed in earlier nights at this warmth, K/h; null while that is not known.</param>
    public void Add(LiquorMean mean, bool heaterOn, double stepK, double? rateThen = null)
    {
        (_stepK, _rateThen) = (stepK, rateThen);
        if (_aggregator.Add(mean, stepK) is { } window)
        {
            Judge(window, [heaterOn ? window.Hours : 0, -window.AboveKelvinHours, window.RoomKnown ? 0 : window.Hours], heaterOn);
        }
    }

    private void Judge(LearningWindow window, ReadOnlySpan<double> x, bool heaterOn)
    {
        var (predicted, variance) = _regression.Predict(x);
        var residual = window.ChangeK - predicted;
        var deviations = residual / Math.Sqrt(variance + _noiseVariance);
        if (heaterOn && GivesTooLittle(x, window.ChangeK))
        {
            if (++_tooLittle >= TooLittleBelieved)
            {
                _tooLittle = 0;
                Doubt(heaterOn, residual / window.Hours);
            }

            return;
        }

        _tooLittle = 0;
        if (IsOutlier(residual, deviations, window.Hours, heaterOn))
        {
            return;
        }

        _history.Add(window, heaterOn, residual);
        _cusum.Add(window.From, window.End.At, residual, deviations);
        if (_cusum.Found is { } found)
        {
            Decide(found.KPerHour, found.Since, window.End, heaterOn);
        }
        else if (!_cusum.IsSuspected && !(heaterOn && Math.Abs(deviations) > DoubtfulDeviations))
        {
            _noiseVariance += NoiseMemory * (Math.Min(residual * residual, 9 * (variance + _noiseVariance)) - variance - _noiseVariance);
            var (least, greatest) = (Math.Max(LeastNoiseK, StepShare * _stepK), Math.Max(GreatestNoiseK, _stepK));
            _noiseVariance = Math.Clamp(_noiseVariance, least * least, greatest * greatest);
            _regression.Update(x, window.ChangeK, _noiseVariance);
            _windows++;
            _hours += window.Hours;
            _onHours += heaterOn ? window.Hours : 0;
            Trust();
            CloseAgain(window.End);
        }
    }

    /// <summary>One or two windows far off hold an event nobody told of; a third says that the balance is wrong.</summary>
    private bool IsOutlier(double residual, double deviations, double hours, bool heaterOn)
    {
        if (Math.Abs(deviations) > OutlierDeviations && Math.Abs(residual) > OutlierK + _stepK && ++_outliers < OutliersBelieved)
        {
            return true;
        }

        if (_outliers >= OutliersBelieved)
        {
            Doubt(heaterOn, residual / hours);
        }

        _outliers = 0;
        return false;
    }

    /// <summary>A heater that does not heat is a fault to be told, not a power to be learned.</summary>
    private bool GivesTooLittle(ReadOnlySpan<double> x, double change)
    {
        var heating = _regression[HeatRegression.Heating];
        var measured = (change - x[1] * _regression[HeatRegression.Loss] - x[2] * _regression[HeatRegression.Room]) / x[0];
        return measured < (_regression.Sigma(HeatRegression.Heating) < 0.15 * heating ? 0.5 : 0.15) * heating;
    }

    /// <summary>A warm-up begins: what has been learned by now is what it is held against.</summary>
    public void BeginWarmUp() => Usual = OpenSince is null && (_hours >= HoursOfANight || _nightsBefore > 0) ? Now(isOfEarlier: true) : Usual;

    private bool IsKnown => OpenSince is null && _regression.Sigma(HeatRegression.Heating) < TrustedShare * _regression[HeatRegression.Heating];

    private void Trust() => Usual ??= _onHours >= HoursOfANight && IsKnown ? Now(isOfEarlier: false) : null;

    private UsualHeat Now(bool isOfEarlier) => new(
        _regression[HeatRegression.Heating],
        _regression.Covariance(HeatRegression.Heating, HeatRegression.Heating),
        _regression[HeatRegression.Loss],
        _regression.Covariance(HeatRegression.Loss, HeatRegression.Loss),
        _regression.Covariance(HeatRegression.Heating, HeatRegression.Loss),
        isOfEarlier,
        IsKnown);

    private void Decide(double shiftKPerHour, TimeSpan since, LiquorMean end, bool heaterOn)
    {
        _cusum.Clear();
        var estimate = Estimate(end.RoomC);
        var aboveRoom = end.LiquorC - estimate.RoomC;
        var lidW = _prior.OpenLidW(end.LiquorC, estimate.RoomC);
        var before = _history.Before(since, heaterOn, end.LiquorC);
        var costsW = _prior.Watts((before ?? 0) - shiftKPerHour);
        var isUsual = _rateThen - (estimate.Rate(end.LiquorC, heaterOn).KPerHour + shiftKPerHour) < LeastLidShare / 2 * _prior.KPerHour(lidW);
        if (OpenSince is null && before is not null && !isUsual && aboveRoom > LidShowsAboveRoomK && costsW > Math.Max(LeastLidShare * lidW, LidDeviations * NoiseW) && costsW < GreatestLidShare * lidW)
        {
            SwapLid(since);
            OpenCostsW = costsW;
            if (_otherLid is { } covered)
            {
                var extra = _prior.KPerHour(costsW) / aboveRoom;
                _regression.Reset(HeatRegression.Loss, covered.Loss + extra, extra / 2);
            }
        }
        else if (OpenSince is not null && -costsW > LeastLidShare * lidW)
        {
            SwapLid(null);
        }
        else
        {
            Doubt(heaterOn, shiftKPerHour);
        }
    }

    /// <summary>Noise of the mean of as many windows as are compared, W.</summary>
    private double NoiseW => _prior.Watts(Math.Sqrt(_noiseVariance * 2 / ResidualHistory.LeastToCompare) / WindowAggregator.Length.TotalHours);

    /// <summary>Losses that have gone back to those of the covered vat say that the lid is on again.</summary>
    private void CloseAgain(LiquorMean end)
    {
        if (OpenSince is null || OpenWasTold || _otherLid is not { } covered)
        {
            return;
        }

        var estimate = Estimate(end.RoomC);
        var aboveRoom = end.LiquorC - estimate.RoomC;
        var extraW = _prior.Watts((_regression[HeatRegression.Loss] - covered.Loss) * aboveRoom);
        if (aboveRoom > LidShowsAboveRoomK && extraW < LeastLidShare / 2 * _prior.OpenLidW(end.LiquorC, estimate.RoomC))
        {
            SwapLid(null);
        }
    }

    /// <summary>Something changed that is not understood: what was learned of it is trusted less, and by no less than it was wrong, or nothing could mend it.</summary>
    private void Doubt(bool heaterOn, double wrongByKPerHour)
    {
        _cusum.Clear();
        _outliers = 0;
        var (heating, loss) = (_regression[HeatRegression.Heating], _regression[HeatRegression.Loss]);
        if (heaterOn)
        {
            // With the heater on it is the power that most likely changed.
            _regression.Reset(HeatRegression.Heating, heating, Math.Max(0.25 * heating, Math.Abs(wrongByKPerHour)));
        }
        else
        {
            _regression.Reset(HeatRegression.Loss, loss, _lossSigmaPrior);
        }
    }

    private void SwapLid(TimeSpan? openSince)
    {
        var now = (_regression[HeatRegression.Loss], _regression.Sigma(HeatRegression.Loss));
        var next = _otherLid ?? (now.Item1, _lossSigmaPrior);
        _regression.Reset(HeatRegression.Loss, next.Item1, next.Item2);
        _otherLid = now;
        OpenSince = openSince;
        OpenCostsW = null;
        OpenWasTold = false;
        _cusum.Clear();
        BreakOff();
    }
}

/// <summary>Heating and loss rate of a vat as they are known at one moment.</summary>
/// <param name="HeatingKPerHour">What the heater gives, K/h.</param>
/// <param name="LossPerHour">Loss rate, 1/h.</param>
/// <param name="Covariance">Of the two.</param>
/// <param name="IsOfEarlier">Whether it is from before the present warm-up; what only its own first hour showed says nothing of its losses later.</param>
/// <param name="IsSure">Whether the power is known so well that the balance alone says what is missing; else only rates of earlier nights do.</param>
internal readonly record struct UsualHeat(
    double HeatingKPerHour, double HeatingVariance, double LossPerHour, double LossVariance, double Covariance, bool IsOfEarlier, bool IsSure)
{
    /// <summary>Mains that wander by 1 % move the power by 2 %; evaporation makes the losses grow with the warmth by more than the straight line.</summary>
    private const double PowerShare = 0.025;
    private const double LossShare = 0.1;

    /// <summary>The same where only the first, cooler hour of this night is known.</summary>
    private const double LossGrowthShare = 0.35;

    /// <summary>What a balance of one mass leaves out of the rate at one place in another night, as a share of the power.</summary>
    private const double BalanceShare = 0.1;

    /// <summary>How much less heat than usual the liquor gets, K/h, and its standard deviation.</summary>
    /// <param name="line">The liquor's slope.</param>
    /// <param name="roomC">The room, °C.</param>
    /// <param name="heaterOn">Whether the heater was on meanwhile.</param>
    /// <param name="rateThen">How fast it changed in earlier nights at this warmth, K/h; null while only the balance says so.</param>
    public (double KPerHour, double Sigma) Missing(RateLine line, double roomC, bool heaterOn, double? rateThen)
    {
        var (u, aboveRoom) = (heaterOn ? 1 : 0, line.NewestC - roomC);
        var (byPower, byLoss) = (u * PowerShare * HeatingKPerHour, (IsOfEarlier || rateThen is not null ? LossShare : LossGrowthShare) * LossPerHour * aboveRoom);
        var byNight = byPower * byPower + byLoss * byLoss + line.Sigma * line.Sigma;
        if (rateThen is { } then)
        {
            return (then - line.KPerHour, Math.Sqrt(byNight));
        }

        var (byBalance, known) = (IsOfEarlier ? BalanceShare * u * HeatingKPerHour : 0, u * HeatingVariance + aboveRoom * aboveRoom * LossVariance - 2 * u * aboveRoom * Covariance);
        return (u * HeatingKPerHour - LossPerHour * aboveRoom - line.KPerHour, Math.Sqrt(Math.Max(0, known) + byBalance * byBalance + byNight));
    }
}
