using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;
using VatWatch.Pipeline;

namespace VatWatch.Daemon.Web.Vats;

/// <summary>One vat as a page shows it.</summary>
public sealed record VatView
{
    private static readonly Quantity[] Main = [Quantity.Temperature, Quantity.Ph, Quantity.Orp];

    public required VatDefinition Definition { get; init; }

    /// <summary>The one word; "unknown" when everything it rests on is old.</summary>
    public required VatState State { get; init; }

    /// <summary>Why, weightiest first.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>What to do now.</summary>
    public required string Advice { get; init; }

    /// <summary>The one thing to do, with its time.</summary>
    public required string Next { get; init; }

    /// <summary>Whether the state is only what the first readings show: how it moves is not known yet.</summary>
    public required bool IsFirstGlance { get; init; }

    /// <summary>The best probe of each main kind that the vat has.</summary>
    public required IReadOnlyList<FigureView> Figures { get; init; }

    public required IReadOnlyList<FigureView> Probes { get; init; }

    /// <summary>Where it is heading, in sentences.</summary>
    public required IReadOnlyList<string> Outlook { get; init; }

    /// <summary>Says that what is shown is old; null when it is not.</summary>
    public required string? OldWords { get; init; }

    /// <summary>Caution about hot liquor; null when it is not hot.</summary>
    public required string? Scald { get; init; }

    /// <summary>Whether it is hot enough to injure within minutes: at 49 °C (120 °F) and above.</summary>
    public required bool IsScaldUrgent { get; init; }

    /// <summary>Whether no fresh, good temperature is to be had although a probe should give one.</summary>
    public required bool TemperatureUnknown { get; init; }

    /// <summary>Temperature, band and limit as a line.</summary>
    public required ScaleView Scale { get; init; }

    /// <summary>Whether it is not a real vat.</summary>
    public required bool IsSimulated { get; init; }

    /// <summary>Address of its page.</summary>
    public string Href => $"/vats/{Definition.Id.Value}";

    /// <summary>Reads the newest picture of a vat.</summary>
    public static VatView Of(LiveVat live, PageFacts page)
    {
        var probes = live.Definition.Probes.Select(probe => (probe.Quantity, Figure: FigureView.Of(live, probe, page))).ToList();
        var oldWords = OldWordsOf(live, probes.ConvertAll(pair => pair.Figure), page);
        var temperature = live.Latest.Where(one => one.Quantity == Quantity.Temperature && one.GoodValue is not null)
            .FirstOrDefault(one => !page.Freshness.IsOld(one, live.Definition.Probes.FirstOrDefault(probe => probe.Id == one.Probe), page.Clock.Now))?.GoodValue;
        var isBlind = temperature is null && probes.Exists(pair => pair.Quantity == Quantity.Temperature);
        var state = oldWords is null ? live.Condition.State : VatState.Unknown;
        var advice = StateAdvice.For(state, oldWords is null ? live.Condition : live.Condition with { TemperatureC = null }, live.Definition);
        return new()
        {
            Definition = live.Definition,
            State = state,
            Next = NextStep.For(state, advice, oldWords is null && !isBlind ? live.Condition : null, WorstOf(live), page.Clock),
            Advice = advice
                + (WarmUpText.IsBlindToAProbeInAir(state, live.Condition, live.Definition) ? " " + WarmUpText.NotBegun : ""),
            IsFirstGlance = state == VatState.TooCold && live.Condition.TemperatureRateKPerHour is null,
            Reasons = live.Condition.Reasons,
            Figures = [.. Main.Select(kind => probes.Where(pair => pair.Quantity == kind).Select(pair => pair.Figure).OrderByDescending(one => one.IsGood).FirstOrDefault()).OfType<FigureView>()],
            Probes = probes.ConvertAll(pair => pair.Figure),
            Outlook = oldWords is null ? [.. OutlookOf(live, page)] : [],
            OldWords = oldWords,
            Scald = ScaldCaution.For(HottestKnown(live), page.Site.Units),
            IsScaldUrgent = HottestKnown(live) >= ScaldCaution.UrgentFromC,
            TemperatureUnknown = isBlind,
            Scale = ScaleView.Of(live.Definition.Temperature, temperature, page.Site.Units),
            IsSimulated = page.Site.SimulatedVats.Contains(live.Definition.Id),
        };
    }

    private static AlarmStatus? WorstOf(LiveVat live) => live.Alarms.Where(alarm => alarm.State is AlarmState.Unacknowledged or AlarmState.Acknowledged).MaxBy(alarm => alarm.Priority);

    // A caution outlives the reading that called for it: an old or doubtful 50 °C is no reason to reach in.
    private static double? HottestKnown(LiveVat live) => live.Latest.Where(one => one.Quantity == Quantity.Temperature).Max(one => one.Value);

    private static string? OldWordsOf(LiveVat live, List<FigureView> figures, PageFacts page)
    {
        if (figures.Count == 0 || figures.Exists(figure => figure is { Age: not null, IsOld: false }))
        {
            return null;
        }

        var newest = live.Latest.Count == 0 ? (TimeSpan?)null : live.Latest.Min(one => page.Clock.Now.Since(one.Stamp));
        return newest is { } age
            ? $"Old: no new reading for {DisplayUnits.Duration(age)}. Do not rely on the numbers below; look at the vat."
            : "No probe of this vat has given a reading since VatWatch started.";
    }

    private static IEnumerable<string> OutlookOf(LiveVat live, PageFacts page)
    {
        var band = live.Definition.Temperature;
        var condition = live.Condition;
        if (WarmUpText.Of(condition, page.Site.Units, page.Clock) is { } warmUp)
        {
            yield return warmUp;
        }

        if (condition.TimeToBand is { } toBand)
        {
            yield return $"Enters the working band {ForecastText.Range(toBand, condition.Stamp, page.Clock)}.";
        }

        if (condition.TimeToLimit is { } toLimit)
        {
            var reaches = condition.Heat is { HeaterOn: null } ? "If the heater is on, it reaches" : "Reaches";
            yield return $"{reaches} the limit of {page.Site.Units.Temperature(band.LimitC)} {ForecastText.Range(toLimit, condition.Stamp, page.Clock)}.";
        }
    }
}
