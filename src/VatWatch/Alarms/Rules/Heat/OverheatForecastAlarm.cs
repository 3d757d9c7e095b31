using VatWatch.Alarms.Lifecycle;
using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>overheat-forecast</c>: the liquor is rising and may reach the limit within the time set, by the early edge of the forecast. Suppressed once it is at the
/// limit: then <see cref="OverheatAlarm"/> speaks.
/// </summary>
internal sealed class OverheatForecastAlarm : IAlarmRule
{
    /// <summary>
    /// A thermometer with larger steps or longer periods shows where heating ends only minutes late: while no thermostat is known, it then wakes people only
    /// so shortly before the limit. Engineering judgement.
    /// </summary>
    private const double CoarseStepK = 0.2;
    private static readonly TimeSpan CoarsePeriod = TimeSpan.FromSeconds(60);
    private const double CoarseWithinMinutes = 12;

    /// <summary>Nearer than this it is told again, whatever was acknowledged. Engineering judgement.</summary>
    private static readonly TimeSpan Soon = TimeSpan.FromMinutes(15);

    private readonly RuleContext _context;
    private readonly double _withinMinutes;
    private readonly bool _isSlow;
    private readonly Deadband _deadband;
    private readonly Deadband _atLimit;
    private AlarmSignal _before;
    private AlarmSignal _hot;
    private VatCondition? _condition;

    public OverheatForecastAlarm(RuleContext context)
    {
        _context = context;
        var thermometers = context.Vat.Probes.Where(probe => probe.Quantity == Quantity.Temperature).ToList();
        _isSlow = thermometers.Count > 0 && thermometers.TrueForAll(probe => probe.Every >= CoarsePeriod);
        _withinMinutes = context.Settings.ForecastWithin.TotalMinutes;
        _deadband = new(_withinMinutes / 10);
        _atLimit = new(context.Settings.For(OverheatAlarm.Kind.Word).Deadband);
        Settings = context.Settings.For(Kind.Word);
    }

    public static AlarmKind Kind { get; } = new("overheat-forecast", AlarmRuleSettings.Guard(AlarmPriority.High, "0:01:00", "0:05:00", "0:10:00"))
    {
        RulesFor = context => [new OverheatForecastAlarm(context)],
    };

    public AlarmName Name { get; } = new(Kind.Word);

    public AlarmRuleSettings Settings { get; }

    public AlarmRationale Rationale { get; } = new(
        "The heater has not switched off where it should, or it is stronger than the vat can use.",
        "The vat passes its limit while nobody is there.",
        "Unplug the heater, since a relay that has welded shut obeys no switch; or turn its thermostat down and watch the next reading. Never reach into the liquor while it has power.",
        "until the early edge of the forecast");

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        _condition = evidence.Condition;
        var early = _condition?.TimeToLimit?.Early;
        var signal = Judge(_condition, early);
        _hot = _condition?.TemperatureC is { } liquorC ? _atLimit.AtOrAbove(liquorC, _context.Vat.Temperature.LimitC, _hot) : _hot;
        return new(signal, Settings.Priority ?? AlarmPriority.High)
        {
            Value = early?.TotalMinutes,
            Limit = _withinMinutes,
            Unit = "min",
            Level = early <= Soon ? 1 : 0,
            Suppressed = _hot == AlarmSignal.Met && _context.Settings.For(OverheatAlarm.Kind.Word).Enabled,
        };
    }

    private AlarmSignal Judge(VatCondition? condition, TimeSpan? early)
    {
        if (condition?.TemperatureC is null)
        {
            return AlarmSignal.Unknown;
        }

        // Nearer is worse, so the axis is turned round.
        _before = early is not null && condition.TemperatureRateKPerHour is not <= 0
            ? IsCoarse(condition)
                ? _deadband.AtOrAbove(-condition.TimeToLimit!.Middle.TotalMinutes, -Math.Min(CoarseWithinMinutes, _withinMinutes), _before)
                : _deadband.AtOrAbove(-MinutesToGo(condition.TimeToLimit!), -_withinMinutes, _before)
            : AlarmSignal.Clear;
        return _before;
    }

    private bool IsCoarse(VatCondition condition) =>
        condition.Heat?.ThermostatOffC is null && (condition.TemperatureStepK >= CoarseStepK || _isSlow);

    /// <summary>
    /// The early edge, unless the forecast is still so wide that its middle lies more than half as far again: in the first minutes of a night
    /// nearly anything may happen, and that wakes nobody.
    /// </summary>
    private static double MinutesToGo(Forecast forecast) => Math.Max(forecast.Early.TotalMinutes, forecast.Middle.TotalMinutes / WidestMiddle);

    /// <summary>Engineering judgement.</summary>
    private const double WidestMiddle = 1.5;

    public Sentence Tell(in AlarmFinding finding, bool stands)
    {
        var (vat, limitC) = (_context.Vat.Name, _context.Vat.Temperature.LimitC);
        if (_condition?.TemperatureC is not { } now)
        {
            return new($"{vat} has no temperature to forecast from.");
        }

        Sentence rising = _condition.TemperatureRateKPerHour switch
        {
            null or (> -0.05 and < 0.05) => "",
            < 0 and var rate => new Sentence($", falling by {-rate:K/h}"),
            { } rate => new Sentence($", rising by {rate:K/h}"),
        };
        if (_hot == AlarmSignal.Met)
        {
            return new($"{vat} is at its limit of {limitC:°C}: {now:°C} now{rising}.");
        }

        return (finding.Signal == AlarmSignal.Met || stands) && _condition.TimeToLimit is { } time
            ? new($"{vat} may reach its limit of {limitC:°C} in {time.Words("or later")}: {now:°C} now{rising}.")
            : new($"{vat} is no longer heading for its limit of {limitC:°C}: {now:°C} now{rising}.");
    }
}
