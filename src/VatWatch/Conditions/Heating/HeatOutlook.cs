using VatWatch.Conditions.Heating.Learning;
using VatWatch.Science.Heat.Forecast;

namespace VatWatch.Conditions.Heating;

/// <summary>
/// What a vat's heat lets one foresee from one moment: times to temperatures and when to switch. One mixed mass with constant losses
/// (heat-balance reference, equations 2 to 5), from what was learned of this vat and the slope now. Immutable.
/// </summary>
public sealed class HeatOutlook
{
    /// <summary>Half-width of a 90 % band in standard deviations, over the two that the forecaster's own band has.</summary>
    private const double BandScale = 1.645 / 2;

    /// <summary>The same of the early edge of a warm-up: what the model leaves out (losses that grow, layers and walls that follow) delays, and hardly ever hastens.</summary>
    private const double EarlyScale = 1.5 / 2;

    /// <summary>Half-width of a 90 % band in standard deviations.</summary>
    private const double PathSigmas = 1.645;

    private const double SecondsPerHour = 3600;

    /// <summary>Deviation of a temperature now, K: the newest minute against the true mean of the liquor; and where it lies within a step of the thermometer, which a line through many steps narrows.</summary>
    private const double LeastStartSigmaK = 0.03;
    private const double StartStepShare = 0.25;

    /// <summary>
    /// Model error as a share of the time (evaporation, mains voltage): less than the 2 to 3 % of the heat-balance reference, since mains and losses are counted by themselves.
    /// With the shares below the bands hold what they say on a second physics with layers, walls and wandering mains.
    /// </summary>
    private const double ModelShare = 0.013;

    /// <summary>Mains that wander by 1 % move the power by 2 %; losses grow with the warmth by more than the straight line.</summary>
    private const double MainsShare = 0.02;
    private const double LossShare = 0.27;

    /// <summary>The late edge counts that growth: still air alone takes heat away with the 5/4th power of the difference (heat-balance reference, section 6), evaporation with more.</summary>
    private const double LossGrowth = 1.5;

    /// <summary>An unmeasured room may wander by this before the time comes, K.</summary>
    private const double RoomWanderK = 1;

    /// <summary>Longer than this is not a forecast.</summary>
    private static readonly TimeSpan Horizon = TimeSpan.FromHours(24);

    private readonly HeatEstimate _estimate;
    private readonly DisplayUnits _units;
    private readonly double _liquorC;
    private readonly double _startSigmaK;
    private readonly (double KPerHour, double Sigma) _rateOn;
    private readonly double? _thermostatOffC;
    private readonly double _boilingC;

    internal HeatOutlook(
        HeatEstimate estimate, double liquorC, bool? heaterOn, (double KPerHour, double Sigma) rateOn, DisplayUnits units, double? thermostatOffC = null, double boilingC = 100, double stepK = 0)
    {
        _estimate = estimate;
        _liquorC = liquorC;
        _startSigmaK = Math.Sqrt(LeastStartSigmaK * LeastStartSigmaK + StartStepShare * StartStepShare * stepK * stepK);
        _rateOn = rateOn;
        _units = units;
        _thermostatOffC = thermostatOffC;
        _boilingC = boilingC;
        HeaterOn = heaterOn;
    }

    /// <summary>Whether the heater heats; null when not known.</summary>
    public bool? HeaterOn { get; }

    /// <summary>Where a thermostat that was seen before should end the heating, °C; null when none is known.</summary>
    public double? ThermostatOffC => _thermostatOffC;

    /// <summary>Heater power that ends up in the liquor, W, and its standard deviation; on the heat capacity of the configured volume.</summary>
    public (double Watts, double Sigma) HeaterPower => (Watts(_estimate.HeatingKPerHour), Watts(Math.Sqrt(_estimate.HeatingVariance)));

    /// <summary>Loss coefficient, evaporation counted, W/K, and its standard deviation.</summary>
    public (double WattsPerKelvin, double Sigma) Loss => (Watts(_estimate.LossPerHour), Watts(Math.Sqrt(_estimate.LossVariance)));

    /// <summary>Whether the lid is off, by an entry or by the losses, so that <see cref="Loss"/> is the open vat's.</summary>
    public bool LidIsOff => _estimate.LidIsOff;

    /// <summary>Loss coefficient with the lid the other way, W/K; null while it was not seen.</summary>
    public double? OtherLidLossWPerK => _estimate.OtherLidLossPerHour is { } other ? Watts(other) : null;

    /// <summary>Where the liquor ends with the heater on, °C, as learned; infinite without losses, and not limited by boiling.</summary>
    public double PlateauC => _estimate.PlateauC(heaterOn: true);

    /// <summary>Where the liquor boils, °C.</summary>
    public double BoilingC => _boilingC;

    /// <summary>Heat capacity of the configured volume with vat and gear, J/K.</summary>
    public double CapacityJPerK => _estimate.CapacityJPerK;

    /// <summary>Nights learned from before this one.</summary>
    public int EarlierNights => _estimate.EarlierNights;

    /// <summary>Where a thermostat was seen to switch off, °C; null when it was not.</summary>
    public double? ThermostatC => _thermostatOffC;

    /// <summary>The room as a probe tells it, or as the losses make it seem, °C.</summary>
    public double RoomC => _estimate.RoomC;

    /// <summary>Whether a probe tells the room.</summary>
    public bool RoomIsMeasured => _estimate.RoomVariance == 0;

    /// <summary>Time until the heater, on from now on, has brought the liquor to <paramref name="targetC"/>.</summary>
    public ForecastAnswer TimeTo(double targetC)
    {
        var change = targetC - _liquorC;
        if (change <= 0)
        {
            return new(null, $"the liquor is at {_units.Temperature(targetC)} or above it");
        }

        if (targetC > _boilingC)
        {
            return new(null, $"the liquor boils at {_units.Temperature(_boilingC)}");
        }

        return Answer(Warming(targetC, 1, EarlyScale), Warming(targetC, LossGrowth, BandScale), targetC);
    }

    private HeatingForecast Warming(double targetC, double lossGrowth, double scale) => HeatingForecaster.Predict(HeatingForecastInputs.FromSlope(
        _liquorC,
        targetC,
        _rateOn.KPerHour / SecondsPerHour,
        scale * RateSigma / SecondsPerHour,
        lossGrowth * _estimate.LossPerHour / SecondsPerHour,
        scale * LossSigma / SecondsPerHour) with
    {
        AmbientSigmaK = scale * RoomWanderK,
        StartSigmaK = scale * _startSigmaK,
        ModelShare = scale * ModelShare,
    });

    /// <summary>
    /// When, from now, to switch the heater off so that the liquor coasts to <paramref name="targetC"/> at <paramref name="readyIn"/>; zero is now.
    /// There is no answer when it would have to be warmer than <paramref name="neverAboveC"/> first.
    /// </summary>
    public ForecastAnswer SwitchOff(double targetC, TimeSpan readyIn, double neverAboveC)
    {
        if (HeaterOn == false)
        {
            return new(null, "the heater is off");
        }

        var (low, high) = (0.0, Math.Max(0, readyIn.TotalHours));
        if (HeatedTo(high) < targetC)
        {
            return new(null, $"the liquor does not reach {_units.Temperature(targetC)} by then");
        }

        for (var i = 0; i < 40; i++)
        {
            var middle = (low + high) / 2;
            (low, high) = HeatedTo(middle) >= NeededAt(targetC, readyIn.TotalHours - middle) ? (low, middle) : (middle, high);
        }

        var needed = NeededAt(targetC, readyIn.TotalHours - low);
        if (needed > neverAboveC)
        {
            return new(null, $"to coast that long the liquor would have to be above {_units.Temperature(neverAboveC)} first; let it heat later instead");
        }

        var there = TimeTo(Math.Max(needed, _liquorC + 0.01)).Forecast;
        return new(Around(low, there is { Late: { } late } ? (late - there.Early).TotalHours / 2 : low), null);
    }

    /// <summary>
    /// The liquor from now on with things as they are, for a drawing: with the heater on (or not known to be off) it warms, otherwise it cools. The line
    /// ends where a thermostat that was seen before would act, or at boiling, since what follows is not foreseen.
    /// </summary>
    /// <param name="ahead">How far.</param>
    /// <param name="steps">Points after the first, evenly spaced.</param>
    public IReadOnlyList<HeatPathPoint> Path(TimeSpan ahead, int steps)
    {
        var points = new List<HeatPathPoint>(steps + 1);
        for (var i = 0; i <= steps; i++)
        {
            var after = ahead * i / steps;
            var (middleC, sigma) = HeaterOn == false ? Cooling(after.TotalHours) : Heating(after.TotalHours);
            points.Add(new(after, middleC - PathSigmas * sigma, middleC, middleC + PathSigmas * sigma));
            if (middleC >= _boilingC || (HeaterOn != false && _liquorC < _thermostatOffC && middleC >= _thermostatOffC))
            {
                break;
            }
        }

        return points;
    }

    // Temperature after some hours and its deviation by the same inputs, propagated as for the times.
    private (double C, double Sigma) Heating(double hours)
    {
        var (rate, a) = (_rateOn.KPerHour, _estimate.LossPerHour);
        var reach = Reach(hours);
        var byLoss = a > 1e-6 ? rate * (hours * Math.Exp(-a * hours) - reach) / a : -rate * hours * hours / 2;
        var rateThen = rate * Math.Exp(-a * hours);
        return (HeatedTo(hours), Root(reach * RateSigma, byLoss * LossSigma, ModelShare * hours * rateThen, hours));
    }

    private (double C, double Sigma) Cooling(double hours)
    {
        var (a, above) = (_estimate.LossPerHour, _liquorC - _estimate.RoomC);
        var left = Math.Exp(-a * hours);
        var rateThen = a * above * left;
        return (_estimate.RoomC + above * left, Root(0, above * hours * left * LossSigma, ModelShare * hours * rateThen, hours));
    }

    private double Root(double byRate, double byLoss, double byModel, double hours)
    {
        var left = Math.Exp(-_estimate.LossPerHour * hours);
        var (byRoom, byStart) = ((1 - left) * RoomWanderK, left * _startSigmaK);
        return Math.Sqrt(byRate * byRate + byLoss * byLoss + byModel * byModel + byRoom * byRoom + byStart * byStart);
    }

    private double RateSigma => Math.Sqrt(_rateOn.Sigma * _rateOn.Sigma + MainsShare * MainsShare * _rateOn.KPerHour * _rateOn.KPerHour);

    private double LossSigma => Math.Sqrt(_estimate.LossVariance + LossShare * LossShare * _estimate.LossPerHour * _estimate.LossPerHour);

    private ForecastAnswer Answer(HeatingForecast forecast, HeatingForecast withGrowingLosses, double targetC)
    {
        if (forecast.ExpectedSeconds is not { } expected)
        {
            return new(null, _rateOn.KPerHour <= 0 ? "the liquor does not rise" : LevelsOff(targetC));
        }

        if (expected > Horizon.TotalSeconds)
        {
            return new(null, $"the liquor rises too slowly to reach {_units.Temperature(targetC)} within a day");
        }

        var late = withGrowingLosses.LateSeconds is { } seconds && seconds <= Horizon.TotalSeconds ? TimeSpan.FromSeconds(seconds) : (TimeSpan?)null;
        return new(new Forecast(TimeSpan.FromSeconds(forecast.EarlySeconds ?? expected), TimeSpan.FromSeconds(expected), late), null);
    }

    private string LevelsOff(double targetC)
    {
        var end = _rateOn.KPerHour > 0 && _estimate.LossPerHour > 0 ? _liquorC + _rateOn.KPerHour / _estimate.LossPerHour : PlateauC;
        return $"the liquor levels off at about {_units.Temperature(end)}, below {_units.Temperature(targetC)}";
    }

    /// <summary>Where the liquor would be after some hours with the heater on.</summary>
    private double HeatedTo(double hours) => _liquorC + _rateOn.KPerHour * Reach(hours);

    /// <summary>Hours at the rate of now that bring as much as some hours at a rate that falls with the losses.</summary>
    private double Reach(double hours)
    {
        var a = _estimate.LossPerHour;
        return a * hours < 1e-6 ? hours : (1 - Math.Exp(-a * hours)) / a;
    }

    /// <summary>How warm it must be when the heater goes off to be at the target after so many hours of cooling.</summary>
    private double NeededAt(double targetC, double hours) =>
        _estimate.RoomC + (targetC - _estimate.RoomC) * Math.Exp(_estimate.LossPerHour * Math.Max(0, hours));

    private double Watts(double kelvinPerHour) => kelvinPerHour * _estimate.CapacityJPerK / SecondsPerHour;

    private static Forecast Around(double hours, double halfWidth) => new(
        TimeSpan.FromHours(Math.Max(0, hours - halfWidth)), TimeSpan.FromHours(hours), TimeSpan.FromHours(hours + halfWidth));
}

/// <summary>Where the liquor is foreseen to be at one moment, with a band of about 90 %.</summary>
/// <param name="After">From now.</param>
/// <param name="LowC">Lower edge, °C.</param>
/// <param name="MiddleC">Best estimate, °C.</param>
/// <param name="HighC">Upper edge, °C.</param>
public readonly record struct HeatPathPoint(TimeSpan After, double LowC, double MiddleC, double HighC);
