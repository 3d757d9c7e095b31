using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules.Heat;

/// <summary>
/// <c>ready-late</c>: the vat is being warmed, and by the forecast it can no longer be ready at the time that was wished for when the warm-up was begun, or
/// that the configuration says. Suppressed while <see cref="WarmingFaultAlarm"/> has more to say, and once <see cref="ColdAlarm"/> tells it.
/// </summary>
internal sealed class ReadyLateAlarm(RuleContext context) : IAlarmRule
{
    /// <summary>A warm-up is given so long to show a rise before "it is not heading there" counts.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(20);

    /// <summary>A warm-up by day that does not come is not late for tomorrow's hour.</summary>
    private static readonly TimeSpan NextNight = TimeSpan.FromHours(16);

    private AlarmSignal _before;
    private VatCondition? _condition;
    private DateTimeOffset? _wish;
    private TimeSpan? _toldAt;

    public static AlarmKind Kind { get; } = new("ready-late", AlarmRuleSettings.Of(AlarmPriority.Medium, "0:05:00", "0:10:00", "0:30:00"))
    {
        RulesFor = context => [new ReadyLateAlarm(context)],
    };

    public AlarmName Name { get; } = new(Kind.Word);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(Kind.Word);

    public AlarmRationale Rationale { get; } = new(
        "The warm-up was begun late, the heater is weaker than thought, the room is cold, or the lid is off.",
        "The session starts late, or starts in a vat too cold to dye well.",
        "See that the lid and the wrap are on and the level is right. Add no second heater to the same circuit; begin with another vat, or later.",
        "until the time that was wished for");

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        _condition = evidence.Condition;
        _toldAt = _condition?.WarmUp?.SlowSince is { } since && evidence.Now.Since(since) >= WarmingFaultAlarm.After ? evidence.Now.Monotonic : _toldAt;
        _wish = Wish(evidence.Now) ?? (_before == AlarmSignal.Met ? _wish : null);
        return new(Judge(evidence.Now), Settings.Priority ?? AlarmPriority.Medium)
        {
            Value = _condition?.TimeToBand?.Early.TotalMinutes,
            Limit = _wish is { } wish ? (wish - evidence.Now.Utc).TotalMinutes : null,
            Unit = "min",
            Suppressed = _wish is not null && (IsToldAsFault(evidence.Now) || IsToldAsCold(evidence.Now)),
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands)
    {
        var vat = context.Vat.Name;
        if (_wish is not { } wish || (_condition is { WarmUp: null, State: not VatState.Warming } && !stands))
        {
            return new($"{vat} is not awaited.");
        }

        var by = TimeZoneInfo.ConvertTime(wish, context.Settings.ReadyBy?.Zone ?? context.Settings.Zone);
        if (finding.Signal != AlarmSignal.Met && !stands)
        {
            return new($"{vat} may be ready by {by:HH:mm}.");
        }

        Sentence now = _condition?.TemperatureC is { } temperatureC ? new Sentence($" It is at {temperatureC:°C}, wanted {context.Vat.Temperature.LowC:°C}.") : "";
        return _condition?.TimeToBand is { } ready
            ? new($"{vat} will not be ready by {by:HH:mm}: by the forecast it takes {ready.Words("or more")} yet.{now}")
            : new($"{vat} will not be ready by {by:HH:mm}: it is not heading there.{now}");
    }

    /// <summary>By when it is wanted: as wished when the warm-up was begun, else the next time of the configuration while it is warming.</summary>
    private DateTimeOffset? Wish(Stamp now)
    {
        if (_condition?.WarmUp?.ReadyBy is { } wish)
        {
            return wish;
        }

        var isAwaited = now.UtcTrusted && _condition is { State: VatState.Warming };
        return isAwaited && context.Settings.ReadyBy is { } daily ? _wish <= now.Utc && daily.Covers(now.Utc) ? _wish : daily.Next(now.Utc) : null;
    }

    /// <summary>A rise that trembles about the least that is plausible is told as one trouble.</summary>
    private bool IsToldAsFault(Stamp now) =>
        context.Settings.For(WarmingFaultAlarm.Kind.Word) is { Enabled: true } fault
        && (_condition?.WarmUp?.SlowSince is not null || now.Monotonic - _toldAt <= fault.OffDelay);

    private bool IsToldAsCold(Stamp now) =>
        _wish <= now.Utc && context.Settings.ReadyBy is { } daily && daily.Covers(now.Utc) && context.Settings.For(ColdAlarm.Kind.Word).Enabled;

    private AlarmSignal Judge(Stamp now)
    {
        if (_condition?.TemperatureC is not { } temperatureC || !now.UtcTrusted)
        {
            return AlarmSignal.Unknown;
        }

        if (_wish is not { } wish || temperatureC >= context.Vat.Temperature.LowC || (_condition.WarmUp is null && _condition.State != VatState.Warming))
        {
            return _before = AlarmSignal.Clear;
        }

        var isHopeless = wish - now.Utc < NextNight && _condition is { WarmUp: { } begun, TemperatureRateKPerHour: not null } && now.Since(begun.Since) >= Patience;
        return _condition.TimeToBand switch
        {
            _ when now.Utc >= wish => _before = AlarmSignal.Met,
            { } ready when now.Utc + ready.Early > wish => _before = AlarmSignal.Met,
            { } ready when now.Utc + ready.Middle <= wish => _before = AlarmSignal.Clear,
            null when !isHopeless => AlarmSignal.Unknown,
            null => _before = AlarmSignal.Met,
            _ => _before,
        };
    }
}
