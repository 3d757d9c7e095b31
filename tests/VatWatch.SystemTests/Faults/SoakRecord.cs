using System.Globalization;

namespace VatWatch.SystemTests.Faults;

/// <summary>Looks at a running daemon at a steady pace and says what grows.</summary>
internal sealed class SoakRecord(WatchedDaemon daemon)
{
    private readonly List<ProcessLook> _looks = [];

    /// <summary>Looks until <paramref name="length"/> has passed or, when told, so many readings were taken.</summary>
    public async Task WatchAsync(TimeSpan length, TimeSpan pause, double readings = double.MaxValue)
    {
        for (var until = Environment.TickCount64 + length.TotalMilliseconds; Environment.TickCount64 < until && Readings < readings;)
        {
            await Task.Delay(pause, TestContext.Current.CancellationToken);
            _looks.Add(daemon.Evaluate());
            Readings = await daemon.MetricAsync("vatwatch_probe_samples_total");
        }
    }

    /// <summary>Readings taken so far.</summary>
    public double Readings { get; private set; }

    /// <summary>By how much the middle of the last quarter lies above the middle of the second: the first is for warming up.</summary>
    public double Growth(Func<ProcessLook, double> figure) => Middle(_looks.Skip(_looks.Count * 3 / 4).Select(figure)) - Middle(_looks.Skip(_looks.Count / 4).Take(_looks.Count / 4).Select(figure));

    /// <summary>Slope of a figure over the second half, an hour.</summary>
    public double SlopePerHour(Func<ProcessLook, double> figure)
    {
        var half = _looks.Skip(_looks.Count / 2).Select(look => (X: look.At.TotalHours, Y: figure(look))).ToList();
        var (x, y) = (half.Average(one => one.X), half.Average(one => one.Y));
        return half.Sum(one => (one.X - x) * (one.Y - y)) / half.Sum(one => (one.X - x) * (one.X - x));
    }

    /// <summary>What it took of one core, percent.</summary>
    public double ProcessorPercent => 100 * (_looks[^1].Processor - _looks[0].Processor) / (_looks[^1].At - _looks[0].At);

    public ProcessLook Last => _looks[^1];

    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{Readings:0} readings, {Last.ResidentMegabytes:0.0} MB, {Last.Files} files, {Last.Threads} threads, {ProcessorPercent:0.00} % of a core");

    private static double Middle(IEnumerable<double> figures)
    {
        var sorted = figures.Order().ToList();
        return sorted[sorted.Count / 2];
    }
}
