using System.Text.Json.Serialization;

using VatWatch.Conditions.Heating.Learning;

namespace VatWatch.Conditions.Heating;

/// <summary>What may keep a warm-up from showing.</summary>
[JsonConverter(typeof(JsonStringEnumConverter<WarmUpCause>))]
public enum WarmUpCause
{
    /// <summary>The thermometer hangs in the air or beside the vat.</summary>
    [JsonStringEnumMemberName("probe-not-in-liquor")]
    ProbeNotInLiquor,

    /// <summary>The thermometer repeats one value, whatever the liquor does.</summary>
    [JsonStringEnumMemberName("probe-stopped")]
    ProbeStopped,

    /// <summary>The heater is not switched on, or its thermostat is set too low.</summary>
    [JsonStringEnumMemberName("heater-not-on")]
    HeaterNotOn,

    /// <summary>A breaker, a protective switch or a cut-out is open, or the element is dead.</summary>
    [JsonStringEnumMemberName("no-supply")]
    NoSupply,

    /// <summary>The lid is off, or the heater gives less than it should.</summary>
    [JsonStringEnumMemberName("lid-off-or-weak-heater")]
    LidOffOrWeakHeater,

    /// <summary>The element is not covered by liquor.</summary>
    [JsonStringEnumMemberName("element-not-in-liquor")]
    ElementNotInLiquor,
}

/// <summary>Where a warm-up should have brought the liquor by a moment: about 90 % of all warm-ups run between the edges.</summary>
/// <param name="Utc">The moment, UTC.</param>
/// <param name="LowC">Lower edge, °C.</param>
/// <param name="HighC">Upper edge, °C.</param>
public readonly record struct WarmUpPoint(DateTimeOffset Utc, double LowC, double HighC);

/// <summary>A warm-up that a person entered or a heater probe showed: what is expected of it, and what is seen. Immutable.</summary>
public sealed record WarmUp
{
    /// <summary>When it began.</summary>
    public required Stamp Since { get; init; }

    /// <summary>Whether a person entered it; otherwise a heater probe shows the power, or the heater is commanded on.</summary>
    public required bool WasEntered { get; init; }

    /// <summary>When the vat should be warm, UTC; null without such a wish.</summary>
    public DateTimeOffset? ReadyBy { get; init; }

    /// <summary>The liquor when it began, or when the watch first saw it after that, °C; null before the first mean.</summary>
    public double? StartC { get; init; }

    /// <summary>Rise since <see cref="StartC"/> that was to be expected by now, K.</summary>
    public required ValueRange ExpectedRiseK { get; init; }

    /// <summary>Rise since <see cref="StartC"/> that is seen, K; null without a usable temperature.</summary>
    public double? RiseK { get; init; }

    /// <summary>How fast it rises, over the last quarter of an hour or more, K/h; null before that can be said.</summary>
    public double? RateKPerHour { get; init; }

    /// <summary>How fast it should rise at least, K/h; null before that can be said.</summary>
    public double? LeastKPerHour { get; init; }

    /// <summary>Since when the liquor has risen by less than half of the least that is plausible, by its slope or in all; null while it rises well, or nothing can be said.</summary>
    public Stamp? SlowSince { get; init; }

    /// <summary>What fits <see cref="SlowSince"/>, likeliest first; empty without it.</summary>
    public IReadOnlyList<WarmUpCause> Causes { get; init; } = [];

    /// <summary>Time until the liquor enters the band; null when it is not heading there.</summary>
    public Forecast? Ready { get; init; }

    internal WarmUpEdges Edges { get; init; }

    /// <summary>Whether even the early edge of the forecast comes after <see cref="ReadyBy"/>.</summary>
    /// <param name="now">The moment of the forecast, UTC.</param>
    public bool IsLate(DateTimeOffset now) => ReadyBy is { } wish && Ready is { } ready && now + ready.Early > wish;

    /// <summary>The corridor from the beginning on, for a drawing; empty before the liquor was seen.</summary>
    /// <param name="until">Where it ends, UTC.</param>
    /// <param name="steps">Points after the first, evenly spaced; at least 1.</param>
    public IReadOnlyList<WarmUpPoint> Corridor(DateTimeOffset until, int steps)
    {
        if (StartC is not { } startC || until <= Since.Utc)
        {
            return [];
        }

        return [.. Enumerable.Range(0, steps + 1).Select(i =>
        {
            var after = (until - Since.Utc) * i / steps;
            var rise = Edges.Rise(after);
            return new WarmUpPoint(Since.Utc + after, startC + rise.Low, startC + rise.High);
        })];
    }
}

/// <summary>The weakest and the strongest warm-up that are plausible, from one warmth on, by what was known when it began.</summary>
/// <param name="Low">Rate at the start, K/h, and loss rate, 1/h, of the weakest.</param>
/// <param name="High">The same of the strongest.</param>
internal readonly record struct WarmUpEdges((double KPerHour, double LossPerHour) Low, (double KPerHour, double LossPerHour) High)
{
    private const double Sigmas = 1.645;

    /// <summary>What one mass with constant losses leaves out: mains and layers, evaporation and the room.</summary>
    private const double PowerShare = 0.18;
    private const double LossShare = 0.25;

    /// <summary>The element and the sheath of the thermometer warm first.</summary>
    private static readonly TimeSpan Delay = TimeSpan.FromMinutes(5);

    public static WarmUpEdges Of(HeatEstimate estimate, double startC)
    {
        var (rate, known) = estimate.Rate(startC, heaterOn: true);
        var byLoss = LossShare * estimate.LossPerHour * (startC - estimate.RoomC);
        var sigma = Math.Sqrt(known * known + PowerShare * PowerShare * estimate.HeatingKPerHour * estimate.HeatingKPerHour + byLoss * byLoss);
        var lossSigma = Sigmas * Math.Sqrt(estimate.LossVariance);
        return new(
            (Math.Max(0, rate - Sigmas * sigma), estimate.LossPerHour + lossSigma),
            (Math.Max(0, rate + Sigmas * sigma), Math.Max(0, estimate.LossPerHour - lossSigma)));
    }

    /// <summary>Rise after some time, K.</summary>
    public ValueRange Rise(TimeSpan after) => new(Rise(Low, (after - Delay).TotalHours), Rise(High, after.TotalHours));

    private static double Rise((double KPerHour, double LossPerHour) edge, double hours) => hours <= 0 ? 0
        : edge.LossPerHour * hours < 1e-6 ? edge.KPerHour * hours
        : edge.KPerHour * (1 - Math.Exp(-edge.LossPerHour * hours)) / edge.LossPerHour;
}
