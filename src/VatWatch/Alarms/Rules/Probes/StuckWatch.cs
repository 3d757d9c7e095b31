using VatWatch.Conditions;

namespace VatWatch.Alarms.Rules.Probes;

/// <summary>
/// Judges whether a pH or ORP value that repeats itself, as the condition says, is a broken instrument or only a vat at rest. Not thread safe.
/// </summary>
/// <remarks>
/// The condition leaves a repeated value out of account early, which costs nobody's sleep; an alarm may. In a vat that rests at one temperature
/// a coarse display may well stand still for hours, so there the value must repeat itself for <see cref="AtRest"/>. When the liquor's temperature
/// has moved by <see cref="MovesK"/> meanwhile the value ought to have moved with it, and the condition's word is enough: near pH 10 the pH alone
/// changes by some 0.03 per kelvin (ionisation of water, carbonate and ammonia alike), which makes 0.06 of pH.
/// </remarks>
internal sealed class StuckWatch(ProbeDefinition probe)
{
    /// <summary>Engineering judgement: half a night.</summary>
    internal static readonly TimeSpan AtRest = TimeSpan.FromHours(4);

    /// <summary>K; see the remarks.</summary>
    internal const double MovesK = 2;

    private readonly bool _isWatched = probe.Quantity is Quantity.Ph or Quantity.Orp;
    private TimeSpan? _since;
    private double _coolestC;
    private double _hottestC;

    /// <summary>For how long the value has been stuck; null while it is not, or may only be at rest.</summary>
    public TimeSpan? Evaluate(VatCondition? condition, Stamp now)
    {
        if (!_isWatched || condition is null || Frozen(condition)?.Since is not { } since)
        {
            _since = null;
            return null;
        }

        TakeTemperature(condition.TemperatureC, isFirst: _since is null);
        _since ??= since.Monotonic;
        var time = now.Monotonic - _since.Value;
        return time >= AtRest || _hottestC - _coolestC >= MovesK ? time : null;
    }

    // A loop by hand: this is asked at every measurement, and allocates nothing.
    private Diagnosis? Frozen(VatCondition condition)
    {
        for (var i = 0; i < condition.Diagnoses.Count; i++)
        {
            if (condition.Diagnoses[i] is { Kind: DiagnosisKind.FrozenValue } frozen && frozen.Probe == probe.Id)
            {
                return frozen;
            }
        }

        return null;
    }

    private void TakeTemperature(double? temperatureC, bool isFirst)
    {
        if (isFirst)
        {
            (_coolestC, _hottestC) = (double.PositiveInfinity, double.NegativeInfinity);
        }

        if (temperatureC is { } value)
        {
            _coolestC = Math.Min(_coolestC, value);
            _hottestC = Math.Max(_hottestC, value);
        }
    }
}
