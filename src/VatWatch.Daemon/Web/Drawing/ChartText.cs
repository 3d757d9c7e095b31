using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>A drawing in words, for those who do not see it.</summary>
internal sealed class ChartText(DisplayUnits units, LocalClock clock)
{
    /// <summary>Range and end of each trace, how often each was broken, and how much happened.</summary>
    public string Summary(VatTraces traces)
    {
        var parts = traces.Traces.Where(trace => trace.Probe.Quantity is not (Quantity.Heater or Quantity.HeaterCommand) && trace.Columns.Count > 0).Select(Trace).ToList();
        var recorded = parts.Count == 0 ? "nothing was recorded" : string.Join("; ", parts);
        return $"{clock.At(traces.From)} to {clock.At(traces.To)}: {recorded}. {Marks(traces.Marks)}";
    }

    private string Trace(ProbeColumns trace)
    {
        var (measures, columns) = (trace.Probe.Quantity, trace.Columns);
        var (low, high) = (units.Value(measures, columns.Min(column => column.Min)), units.Value(measures, columns.Max(column => column.Max)));
        var range = low == high ? $"steady at {low}" : $"{low} to {high}, {units.Value(measures, columns[^1].Last)} at the end";
        var breaks = columns.Count(column => column.BreakBefore);
        var broken = breaks == 0 ? "" : breaks == 1 ? ", broken once" : $", broken {breaks} times";
        return measures == Quantity.Ph ? range + broken : $"{FigureView.Title(measures)} {range}{broken}";
    }

    private static string Marks(IReadOnlyList<ChartMark> marks)
    {
        var counts = new[] { (ChartMarkKind.Alarm, "alarm"), (ChartMarkKind.DipIn, "dip"), (ChartMarkKind.Added, "addition"), (ChartMarkKind.Calibration, "calibration") }
            .Select(pair => (Count: marks.Count(mark => mark.Kind == pair.Item1), Noun: pair.Item2))
            .Where(pair => pair.Count > 0)
            .Select(pair => pair.Count == 1 ? $"1 {pair.Noun}" : $"{pair.Count} {pair.Noun}s")
            .ToList();
        return counts.Count == 0 ? "No alarm, dip or addition." : $"{string.Join(", ", counts)}.";
    }
}
