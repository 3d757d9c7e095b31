using ScottPlot;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Panels;

/// <summary>What one panel of values shows; <see cref="ValuePanelDrawing"/> draws it. All values are in the canonical unit.</summary>
internal sealed record ValuePanel
{
    /// <summary>Its heading, for example "Liquor temperature".</summary>
    public required string Heading { get; init; }

    /// <summary>Unit of the left axis.</summary>
    public required AxisScale Scale { get; init; }

    /// <summary>Unit of the right axis; null for none.</summary>
    public AxisScale? OtherScale { get; init; }

    /// <summary>The traces that the panel is about; the first is the chief one.</summary>
    public required IReadOnlyList<ProbeTrace> Traces { get; init; }

    /// <summary>Traces that only go with them, drawn thin.</summary>
    public IReadOnlyList<ProbeTrace> Lesser { get; init; } = [];

    public PanelBand? Band { get; init; }

    /// <summary>Limits and thresholds.</summary>
    public IReadOnlyList<PanelLevel> Levels { get; init; } = [];

    /// <summary>Whether time without readings of the chief trace is hatched.</summary>
    public bool HatchGaps { get; init; } = true;

    /// <summary>The smallest height of the axis, canonical unit, so that noise does not fill a panel.</summary>
    public required double SmallestSpan { get; init; }

    /// <summary>Share of the height of a chart.</summary>
    public required float Weight { get; init; }

    /// <summary>The canonical range to show: all values, the band and the levels, with some air.</summary>
    public (double Low, double High) Range()
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        void Include(double value) => (low, high) = (Math.Min(low, value), Math.Max(high, value));

        foreach (var reading in Traces.Concat(Lesser).SelectMany(trace => trace.Readings))
        {
            if (TraceRuns.HasValue(reading, out var value))
                Include(value);
        }

        foreach (var level in Levels)
            Include(level.Value);
        if (Band is not null)
        {
            Include(Band.Low);
            Include(Band.High);
        }

        if (low > high)
            (low, high) = (0, SmallestSpan);
        var air = Math.Max((high - low) * 0.08, (SmallestSpan - (high - low)) / 2);
        return (low - air, high + air);
    }
}

/// <summary>A wanted band, shaded and labelled.</summary>
internal sealed record PanelBand(double Low, double High, string Label);

/// <summary>A limit or threshold: a line across the panel with its label.</summary>
internal sealed record PanelLevel(double Value, string Label, Color Ink, LinePattern Pattern);
