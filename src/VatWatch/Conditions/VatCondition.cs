using VatWatch.Conditions.Heating;
using VatWatch.Conditions.Reduction;

namespace VatWatch.Conditions;

/// <summary>What state a vat is in and where it is heading, at one moment.</summary>
public sealed record VatCondition
{
    public required VatId Vat { get; init; }

    /// <summary>When this was worked out.</summary>
    public required Stamp Stamp { get; init; }

    /// <summary>The one word.</summary>
    public required VatState State { get; init; }

    /// <summary>What <see cref="Reasons"/> are written in.</summary>
    public DisplayUnits Units { get; init; } = DisplayUnits.Si;

    /// <summary>Why, in sentences; the weightiest first. Never empty.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>Liquor temperature, °C; null when none is good.</summary>
    public double? TemperatureC { get; init; }

    /// <summary>Rate of change of the liquor temperature, K/h; null when not known.</summary>
    public double? TemperatureRateKPerHour { get; init; }

    /// <summary>Smallest step that the liquor's thermometer has shown, K; 0 before it has moved.</summary>
    public double TemperatureStepK { get; init; }

    /// <summary>Standard deviation of <see cref="TemperatureRateKPerHour"/>, K/h.</summary>
    public double? TemperatureRateSigmaKPerHour { get; init; }

    /// <summary>pH at <see cref="TemperatureC"/>.</summary>
    public double? Ph { get; init; }

    /// <summary>
    /// pH that the liquor would have in the middle of its band, by the law of a used bath (<see cref="Science.Carbonate.SodaAsh.UsedBath"/>): what its band is held
    /// against, since a cold liquor of the right composition reads higher. Null without pH or temperature.
    /// </summary>
    public double? PhWhenWarm { get; init; }

    /// <summary>ORP, mV against the vat's reference electrode.</summary>
    public double? OrpMillivolts { get; init; }

    /// <summary>Rate of change of ORP outside the transient of a dip or an addition, mV/h; null during one and until there is enough after it.</summary>
    public double? OrpRateMillivoltsPerHour { get; init; }

    /// <summary>Standard deviation of <see cref="OrpRateMillivoltsPerHour"/>, mV/h.</summary>
    public double? OrpRateSigmaMillivoltsPerHour { get; init; }

    /// <summary>How long ago the dip or addition was, the first of several, from which ORP is still coming back; null when there is none.</summary>
    public TimeSpan? RestingFor { get; init; }

    /// <summary>Margin of reduction; null without pH, ORP, a known reference electrode or a chemical reducing agent.</summary>
    public ReductionMargin? Margin { get; init; }

    /// <summary>Distance from the vat's good days; null without a baseline, pH or ORP.</summary>
    public BaselineDistance? FromGoodDays { get; init; }

    /// <summary>Recoveries after dips in this session, oldest first.</summary>
    public IReadOnlyList<Recovery> Recoveries { get; init; } = [];

    /// <summary>Time until the liquor enters the working band; null when it is in it or not heading there.</summary>
    public Forecast? TimeToBand { get; init; }

    /// <summary>Time until the liquor reaches the limit, the heater taken to stay on; null when it is not heading there.</summary>
    public Forecast? TimeToLimit { get; init; }

    /// <summary>Why <see cref="TimeToBand"/> is null, as a clause.</summary>
    public string? NoTimeToBand { get; init; }

    /// <summary>Why <see cref="TimeToLimit"/> is null, as a clause.</summary>
    public string? NoTimeToLimit { get; init; }

    /// <summary>The warm-up that was begun and has not reached the band yet; null when none was.</summary>
    public WarmUp? WarmUp { get; init; }

    /// <summary>What was learned of the vat's heat, for questions such as when to switch on; null without a usable temperature.</summary>
    public HeatOutlook? Heat { get; init; }

    /// <summary>What seems wrong, weightiest first; empty when nothing does.</summary>
    public IReadOnlyList<Diagnosis> Diagnoses { get; init; } = [];
}

/// <summary>A figure from its low to its high edge, in the unit of what it is a range of.</summary>
public readonly record struct ValueRange(double Low, double High);
