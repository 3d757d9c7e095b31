using VatWatch.Alarms.Lifecycle;
using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules;

/// <summary>An alarm about one number of the condition that is on the wrong side of its limit. Not thread safe.</summary>
internal sealed class LimitRule(RuleContext context, AlarmKind kind) : IAlarmRule
{
    private readonly Deadband _deadband = new(context.Settings.For(kind.Word).Deadband);
    private AlarmSignal _before;
    private TimeSpan? _suppressedAt;
    private VatCondition? _condition;

    public AlarmName Name { get; } = new(kind.Word);

    public AlarmRuleSettings Settings { get; } = context.Settings.For(kind.Word);

    public required AlarmRationale Rationale { get; init; }

    /// <summary>The limit, in <see cref="Unit"/>.</summary>
    public required double Limit { get; init; }

    /// <summary>Canonical unit.</summary>
    public required string Unit { get; init; }

    /// <summary>Whether the wrong side is below the limit; otherwise it is the limit and above.</summary>
    public bool IsBelow { get; init; }

    /// <summary>The number; null while it is not known.</summary>
    public required Func<VatCondition, double?> Value { get; init; }

    /// <summary>Whether the limit holds at this moment; null when that cannot be told.</summary>
    public Func<Stamp, bool?> Holds { get; init; } = _ => true;

    /// <summary>
    /// Whether another state of the vat makes the alarm meaningless just now; null when that cannot be told, and then it holds as it last was, for as long as a met condition is
    /// waited for. Asked at every condition.
    /// </summary>
    public Func<VatCondition, bool?> IsSuppressed { get; init; } = _ => false;

    /// <summary>Whether the condition is met for another reason than the number. Asked at every condition.</summary>
    public Func<VatCondition, bool> IsMet { get; init; } = _ => false;

    /// <summary>The sentence for a value, whether it is told as a trouble, and the condition it comes from.</summary>
    public required Func<double?, AlarmTelling, VatCondition?, Sentence> Words { get; init; }

    public AlarmFinding Evaluate(VatEvidence evidence)
    {
        _condition = evidence.Condition;
        var value = _condition is { } condition ? Value(condition) : null;
        var isSuppressed = _condition is { } judged && IsSuppressedNow(judged, evidence.Now.Monotonic);

        // A deadband is for an alarm that may stand: one that is suppressed does not begin to stand by a value that has come back past its limit.
        _before = isSuppressed ? AlarmSignal.Clear : _before;
        var isMet = _condition is { } seen && IsMet(seen);
        var signal = Holds(evidence.Now) switch
        {
            false => _before = AlarmSignal.Clear,
            true when isMet => AlarmSignal.Met,
            true when value is { } number => _before = IsBelow ? _deadband.Below(number, Limit, _before) : _deadband.AtOrAbove(number, Limit, _before),
            _ => AlarmSignal.Unknown,
        };
        return new(signal, Settings.Priority ?? AlarmPriority.High)
        {
            Value = value,
            Limit = Limit,
            Unit = Unit,
            IsBack = !isMet && (IsBelow ? value >= Limit : value < Limit),
            Suppressed = isSuppressed,
        };
    }

    public Sentence Tell(in AlarmFinding finding, bool stands) => Words(
        finding.Value,
        finding.Signal == AlarmSignal.Met ? AlarmTelling.Trouble : stands ? AlarmTelling.Watched : AlarmTelling.Well,
        _condition);

    private bool IsSuppressedNow(VatCondition condition, TimeSpan now)
    {
        if (IsSuppressed(condition) is { } isSuppressed)
        {
            _suppressedAt = isSuppressed ? now : null;
            return isSuppressed;
        }

        return now - _suppressedAt < (Settings.OnDelay ?? TimeSpan.Zero);
    }
}

/// <summary>How a limit's number is told.</summary>
internal enum AlarmTelling
{
    /// <summary>It is on the right side.</summary>
    Well,

    /// <summary>It was on the wrong side, and is watched until it stays right.</summary>
    Watched,

    /// <summary>It is on the wrong side.</summary>
    Trouble,
}
