using VatWatch.Charts.Recipes.Ink;
using VatWatch.Charts.Traces;

namespace VatWatch.Charts.Recipes.Panels;

/// <summary>The panels of a vat's chart: temperature, margin of reduction, pH and ORP. A panel without a probe and without a wanted band is left out.</summary>
internal static class ValuePanels
{
    /// <summary>The panels from top to bottom.</summary>
    public static IReadOnlyList<ValuePanel> Of(VatRecord record, IReadOnlyList<ProbeTrace> traces) =>
        Of(record, traces, MarginTrace.Of(record) is { } margin ? [margin] : []);

    /// <summary>The panels with these margins of reduction; without a panel for them when there are none.</summary>
    public static IReadOnlyList<ValuePanel> Of(VatRecord record, IReadOnlyList<ProbeTrace> traces, IReadOnlyList<ProbeTrace> margins)
    {
        ProbeTrace[] Measuring(Quantity measures) => [.. traces.Where(trace => trace.Quantity == measures)];

        var panels = new List<ValuePanel> { Temperature(record, Measuring(Quantity.Temperature), Measuring(Quantity.Ambient)) };
        if (margins.Count > 0)
            panels.Add(Margin(margins));
        if (Ph(record, Measuring(Quantity.Ph)) is { } ph)
            panels.Add(ph);
        if (Orp(record, Measuring(Quantity.Orp)) is { } orp)
            panels.Add(orp);
        return panels;
    }

    private static ValuePanel Temperature(VatRecord record, ProbeTrace[] liquor, ProbeTrace[] ambient)
    {
        var (units, band) = (record.Units, record.Vat.Temperature);
        return new ValuePanel
        {
            Heading = "Liquor temperature",
            Scale = units.IsUs ? AxisScale.Fahrenheit : AxisScale.Celsius,
            OtherScale = units.IsUs ? AxisScale.Celsius : AxisScale.Fahrenheit,
            Traces = liquor,
            Lesser = ambient,
            Band = new PanelBand(band.LowC, band.HighC, $"band {Bare(units, band.LowC)} to {Bare(units, band.HighC)} {units.TemperatureUnit}"),
            Levels = [new PanelLevel(band.LimitC, $"limit {Bare(units, band.LimitC)} {units.TemperatureUnit}", Inks.Madder, Patterns.Limit)],
            SmallestSpan = 8,
            Weight = 5,
        };
    }

    private static ValuePanel Margin(IReadOnlyList<ProbeTrace> margins) => new()
    {
        Heading = "Margin of reduction",
        Scale = AxisScale.Canonical(Quantity.Orp),
        Traces = margins,
        Levels = [new PanelLevel(0, "half reduced; lower is stronger", Inks.Walnut, Patterns.Threshold)],
        SmallestSpan = 60,
        Weight = 3,
    };

    private static ValuePanel? Ph(VatRecord record, ProbeTrace[] traces) => traces.Length == 0 && record.Vat.Ph is null ? null : new ValuePanel
    {
        Heading = "pH",
        Scale = new AxisScale("", 1, 0),
        Traces = traces,
        Band = record.Vat.Ph is { } band ? new PanelBand(band.Low, band.High, $"band {Words.Short(band.Low, 2)} to {Words.Short(band.High, 2)}") : null,
        SmallestSpan = 1,
        Weight = 3,
    };

    private static ValuePanel? Orp(VatRecord record, ProbeTrace[] traces) => traces.Length == 0 && record.Vat.Orp is null ? null : new ValuePanel
    {
        Heading = record.Vat.Orp is { } named ? $"ORP against {named.Reference}" : "ORP",
        Scale = AxisScale.Canonical(Quantity.Orp),
        Traces = traces,
        Levels = record.Vat.Orp is { } limits
            ?
            [
                new PanelLevel(limits.OxidisedMillivolts, $"oxidised above {Words.Short(limits.OxidisedMillivolts, 0)} mV", Inks.Madder, Patterns.Limit),
                new PanelLevel(limits.WeakMillivolts, $"weak above {Words.Short(limits.WeakMillivolts, 0)} mV", Inks.Walnut, Patterns.Threshold),
            ]
            : [],
        SmallestSpan = 60,
        Weight = 4,
    };

    private static string Bare(DisplayUnits units, double temperatureC) => Words.Short(units.FromCelsius(temperatureC), 1);
}
