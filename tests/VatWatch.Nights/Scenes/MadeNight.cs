using VatWatch.Probes.Recorded;

namespace VatWatch.Nights.Scenes;

/// <summary>A made-up log of one vat, a night or several in a row, with what really happened.</summary>
internal sealed record MadeNight
{
    public required int Seed { get; init; }

    public required NightKind Kind { get; init; }

    /// <summary>A configuration that reads these probes.</summary>
    public required string Configuration { get; init; }

    public required IReadOnlyList<RecordedRow> Rows { get; init; }

    public required IReadOnlyList<LogBookEntry> Entries { get; init; }

    public required NightTruth Truth { get; init; }

    /// <summary>The vat and its things in a line.</summary>
    public required string Story { get; init; }

    /// <summary>The vat's name in every configuration.</summary>
    public const string Vat = "vat";

    public const string Liquor = "liquor";
}

/// <summary>What a person wrote into the log book.</summary>
/// <param name="Time">UTC.</param>
/// <param name="Entry">Such as <c>heater-on</c>, <c>heater-off</c>, <c>yarn-in</c>, <c>yarn-out</c>, <c>top-up</c>.</param>
/// <param name="Value">What goes with it, such as <c>ready 07:30</c>; may be empty.</param>
internal sealed record LogBookEntry(DateTimeOffset Time, string Entry, string Value);

/// <summary>One night of a log.</summary>
/// <param name="From">First reading.</param>
/// <param name="To">Last reading.</param>
/// <param name="Index">0 for the first of its vat.</param>
/// <param name="Healthy">Nothing goes wrong in it.</param>
/// <param name="OffByHand">
/// When a person switched a heater off that nothing else would have; null where there was a thermostat or the heater too weak. A forecast of the limit before that was right.
/// </param>
internal sealed record NightSpan(DateTimeOffset From, DateTimeOffset To, int Index, bool Healthy, DateTimeOffset? OffByHand = null);

/// <summary>The liquor as it was, once a minute.</summary>
/// <param name="AtProbe">Warmth at the height of the thermometer, whether or not it hangs there, °C.</param>
internal readonly record struct TruePoint(DateTimeOffset Time, double Mean, double AtProbe, double Watts, double Orp, double Ph);

/// <summary>What really happened.</summary>
internal sealed record NightTruth
{
    public required IReadOnlyList<NightSpan> Nights { get; init; }

    public required IReadOnlyList<TruePoint> Points { get; init; }

    public required double Low { get; init; }

    public required double High { get; init; }

    public required double Limit { get; init; }

    /// <summary>The thermometer is slow or has large steps.</summary>
    public bool Coarse { get; init; }

    /// <summary>What went wrong began here; null when nothing does.</summary>
    public DateTimeOffset? Fault { get; init; }

    /// <summary>A warm-up was entered in the log book, or a heater probe shows it.</summary>
    public bool Begun { get; init; }

    /// <summary>Start of the heating that goes without a break through the limit.</summary>
    public DateTimeOffset? HeatingSince { get; init; }

    /// <summary>When the watch could first know that the heating does not end: where a thermostat known from earlier nights ought to have cut, else the start of heating.</summary>
    public DateTimeOffset? Knowable { get; init; }

    /// <summary>When the readings came to the limit to stay, for 10 s at least.</summary>
    public DateTimeOffset? ReadingCrosses { get; init; }

    /// <summary>When the liquor at the probe's height came to the limit.</summary>
    public DateTimeOffset? LiquorCrosses { get; init; }

    /// <summary>When the readings left the band downwards after the fault.</summary>
    public DateTimeOffset? LeavesBand { get; init; }

    /// <summary>Why the readings cannot show what went wrong in the time wanted; null when they can.</summary>
    public string? Untellable { get; init; }

    /// <summary>When the potential began to rise by 20 mV/h.</summary>
    public DateTimeOffset? RiseBegins { get; init; }
}
