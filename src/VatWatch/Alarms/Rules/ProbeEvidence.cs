using VatWatch.Measurements;

namespace VatWatch.Alarms.Rules;

/// <summary>The newest of what one probe has said. Not thread safe.</summary>
/// <param name="silentAfter">How long without a usable value counts as silence.</param>
internal sealed class ProbeEvidence(ProbeDefinition definition, TimeSpan silentAfter)
{
    /// <summary>Readings that a fault with a number may be left out of account, before it counts as the temperature it shows.</summary>
    private const int FaultsLeftOut = 2;

    /// <summary>No liquor warms by so much from one reading to the next, K: a stray value, until the next reading says it too.</summary>
    private const double StrayK = 25;

    private readonly MeasurableRange _range = MeasurableRange.Of(definition.Quantity);
    private int _faultsInARow;
    private double? _stray;
    private TimeSpan _heard;

    /// <summary>The probe as configured.</summary>
    public ProbeDefinition Definition => definition;

    /// <summary>How long without a usable value counts as silence.</summary>
    public TimeSpan SilentAfter => silentAfter;

    /// <summary>Newest measurement of any quality.</summary>
    public Measurement? Newest { get; private set; }

    /// <summary>Newest good or suspect value, in the canonical unit.</summary>
    public double? Value { get; private set; }

    /// <summary>When <see cref="Value"/> came, or when watching began.</summary>
    public TimeSpan ValueAt { get; private set; }

    /// <summary>Like <see cref="Value"/>, but a number that keeps coming as a fault counts too: no hot value is left out for longer than two readings.</summary>
    public double? ReportedValue { get; private set; }

    /// <summary>When <see cref="ReportedValue"/> came.</summary>
    public TimeSpan ReportedAt { get; private set; }

    /// <summary>Since when every measurement has been a fault; null when the newest is none.</summary>
    public TimeSpan? FaultSince { get; private set; }

    /// <summary>Counts the silence from here.</summary>
    public void Begin(TimeSpan now)
    {
        ValueAt = now;
        ReportedAt = now;
        _heard = now;
    }

    /// <summary>Whether there is a good or suspect value that has not aged into silence.</summary>
    public bool IsFresh(TimeSpan now) => Value is not null && now - ValueAt < silentAfter;

    /// <summary>Whether the probe has answered, in whatever quality but missing, within the time of silence.</summary>
    public bool Answers(TimeSpan now) => Newest is { Quality: not Quality.Missing } && now - _heard < silentAfter;

    /// <summary>Takes in a measurement; false when it is older than what is known.</summary>
    public bool Accept(Measurement measurement)
    {
        var at = measurement.Stamp.Monotonic;
        if (Newest is not null && at < _heard)
        {
            return false;
        }

        Newest = measurement;
        _heard = at;
        var isFault = measurement.Quality == Quality.Fault;
        _faultsInARow = isFault ? _faultsInARow + 1 : 0;
        FaultSince = isFault ? FaultSince ?? at : null;
        if (measurement.Value is { } value && double.IsFinite(value))
        {
            TakeValue(value, at, measurement.Quality);
        }

        return true;
    }

    private bool IsStray(double value, TimeSpan at)
    {
        var isStray = definition.Quantity == Quantity.Temperature && value > ReportedValue + StrayK && at - ReportedAt < silentAfter && !(value > _stray - StrayK);
        _stray = isStray ? value : null;
        return isStray;
    }

    private void TakeValue(double value, TimeSpan at, Quality quality)
    {
        if (IsStray(value, at))
        {
            return;
        }

        var isUsable = quality is Quality.Good or Quality.Suspect;
        if (isUsable)
        {
            Value = value;
            ValueAt = at;
        }

        if (isUsable || (quality == Quality.Fault && _faultsInARow > FaultsLeftOut && _range.Holds(value)))
        {
            ReportedValue = value;
            ReportedAt = at;
        }
    }
}
