using VatWatch.Daemon.Web.Pages;
using VatWatch.Daemon.Web.Vats.Figures;
using VatWatch.Pipeline;
using VatWatch.Store.Series;

namespace VatWatch.Daemon.Web.Drawing;

/// <summary>Turns what was recorded of a vat into the reply that a drawing is made from, in the dyer's units.</summary>
internal sealed class ChartWriter(LiveVat live, DisplayUnits units, LocalClock clock)
{
    private const int ForecastSteps = 60;
    private const int CorridorSteps = 60;

    /// <summary>The reply, with the forecast when the stretch reaches ahead of now.</summary>
    public ChartReply Write(VatTraces traces)
    {
        var vat = live.Definition;
        var now = clock.Now.Utc;
        var (forecast, noForecast) = traces.To > now ? Ahead(traces.To) : (null, null);
        return new(
            vat.Id.Value,
            vat.Name,
            Milliseconds(traces.From),
            Milliseconds(traces.To),
            Milliseconds(now),
            clock.Zone.Id,
            (long)clock.Zone.GetUtcOffset(traces.To).TotalMilliseconds,
            [.. traces.Traces.Select(trace => Trace(trace, traces.To))],
            [.. Bands(vat)],
            [.. traces.Marks.Select(Mark)],
            forecast,
            noForecast,
            Corridor(traces),
            new ChartText(units, clock).Summary(traces));
    }

    private TraceReply Trace(ProbeColumns trace, DateTimeOffset to)
    {
        var (measures, columns) = (trace.Probe.Quantity, WithNewest(trace, to));
        double[] Of(Func<MeasurementColumn, double> pick) => [.. columns.Select(column => InUnits(measures, pick(column)))];
        return new(
            trace.Probe.Id.Value,
            measures.Word(),
            FigureView.Title(measures),
            measures is Quantity.Temperature or Quantity.Ambient ? units.TemperatureUnit : measures is Quantity.Ph or Quantity.Heater or Quantity.HeaterCommand ? "" : measures.Unit(),
            [.. columns.Select(column => Milliseconds(column.Start))],
            columns is [var any, ..] ? (long)(any.End - any.Start).TotalMilliseconds : 0,
            Of(column => column.First),
            Of(column => column.Last),
            Of(column => column.Min),
            Of(column => column.Max),
            [.. columns.Index().Where(pair => pair.Item.BreakBefore).Select(pair => pair.Index)]);
    }

    // The store is behind by up to one commit; what is shown as a number above the chart is also its last point.
    private IReadOnlyList<MeasurementColumn> WithNewest(ProbeColumns trace, DateTimeOffset to)
    {
        var (columns, newest) = (trace.Columns, live.Latest.FirstOrDefault(one => one.Probe == trace.Probe.Id));
        if (columns is not [.., var last] || newest?.GoodValue is not { } value || newest.Stamp.Utc <= last.End || newest.Stamp.Utc > to)
        {
            return columns;
        }

        var at = newest.Stamp.Utc;
        return [.. columns, new(at, at + (last.End - last.Start), value, value, value, value, value, 1, newest.Quality, false)];
    }

    private IEnumerable<BandReply> Bands(VatDefinition vat)
    {
        double Warm(double celsius) => InUnits(Quantity.Temperature, celsius);
        yield return new(Quantity.Temperature.Word(), Warm(vat.Temperature.LowC), Warm(vat.Temperature.HighC), Warm(vat.Temperature.LimitC), "limit");
        if (vat.Ph is { } ph)
        {
            yield return new(Quantity.Ph.Word(), ph.Low, ph.High, null, null);
        }

        if (vat.Orp is { } orp)
        {
            yield return new(Quantity.Orp.Word(), null, orp.WeakMillivolts, orp.OxidisedMillivolts, "oxidised");
        }
    }

    private MarkReply Mark(ChartMark mark) => new(
        Milliseconds(mark.At),
        mark.Until is { } until ? Milliseconds(until) : null,
        mark.Kind.Word(),
        mark.Letter,
        $"{clock.At(mark.At)}{(mark.Until is { } over ? $" to {clock.At(over)}" : "")}: {mark.Text}");

    /// <summary>Of the warm-up that goes on, where the stretch shows some of it. Past the limit nothing is expected any more, only feared.</summary>
    private CorridorReply? Corridor(VatTraces traces)
    {
        var limitC = live.Definition.Temperature.LimitC;
        if (live.Condition.WarmUp is not { } warmUp || warmUp.Corridor(traces.To, CorridorSteps) is not { Count: > 1 } corridor)
        {
            return null;
        }

        double[] Of(Func<Conditions.Heating.WarmUpPoint, double> pick) => [.. corridor.Select(point => InUnits(Quantity.Temperature, Math.Min(limitC, pick(point))))];
        return new([.. corridor.Select(point => Milliseconds(point.Utc))], Of(point => point.LowC), Of(point => point.HighC));
    }

    private (ForecastPathReply? Path, string? WhyNot) Ahead(DateTimeOffset to)
    {
        var condition = live.Condition;
        if (condition.Heat is not { } heat)
        {
            return (null, condition.NoTimeToLimit ?? "there is no usable temperature");
        }

        var path = heat.Path(to - condition.Stamp.Utc, ForecastSteps);
        double[] Of(Func<Conditions.Heating.HeatPathPoint, double> pick) => [.. path.Select(point => InUnits(Quantity.Temperature, pick(point)))];
        return (new([.. path.Select(point => Milliseconds(condition.Stamp.Utc + point.After))], Of(point => point.LowC), Of(point => point.MiddleC), Of(point => point.HighC)), null);
    }

    private double InUnits(Quantity measures, double value) => measures switch
    {
        Quantity.Temperature or Quantity.Ambient => Math.Round(units.FromCelsius(value), 2),
        Quantity.Ph => Math.Round(value, 3),
        _ => Math.Round(value, 1),
    };

    private static long Milliseconds(DateTimeOffset moment) => moment.ToUnixTimeMilliseconds();
}
