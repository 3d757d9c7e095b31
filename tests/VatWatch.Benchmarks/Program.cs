using VatWatch.Benchmarks;

// Ratios against floors measured in the same run; exit code 1 when a bound is not held. Names on the command line choose; "--page FILE" keeps the table.
var table = new Table();
var asked = args.ToList();
string? page = null;
if (asked.IndexOf("--page") is >= 0 and var at && at + 1 < asked.Count)
{
    page = asked[at + 1];
    asked.RemoveRange(at, 2);
}

string[] every = ["latency", "through", "memory", "processor", "start", "server", "writing", "columns", "report", "plan", "replay", "nights", "viewers", "growth", "size"];
foreach (var name in asked.Count == 0 ? every : [.. asked])
{
    await (name switch
    {
        "latency" => AlarmLatency.MeasureAsync(table),
        "through" => Throughput.MeasureAsync(table),
        "memory" => Footprint.MeasureAsync(table),
        "processor" => Footprint.MeasureProcessorAsync(table),
        "start" => StartTime.MeasureAsync(table),
        "server" => ServerCopy.MeasureAsync(table),
        "writing" => StoreSpeed.MeasureWritingAsync(table),
        "columns" => StoreSpeed.MeasureColumnsAsync(table),
        "report" => ReportTime.MeasureAsync(table),
        "plan" => PlanTime.MeasureAsync(table),
        "replay" => ReplayTime.MeasureAsync(table),
        "nights" => ReplayTime.MeasureNightsAsync(table),
        "viewers" => Viewers.MeasureAsync(table),
        "growth" => Growth.MeasureAsync(table),
        "size" => Footprint.MeasureSizeAsync(table),
        _ => throw new ArgumentException($"'{name}' is no benchmark; wanted some of {string.Join(", ", every)}"),
    });
}

if (page is not null)
{
    table.Write(page);
}

return table.Held ? 0 : 1;
