using VatWatch.Benchmarks;

// Ratios against floors measured in the same run; exit code 1 when a bound is not held. Names on the command line choose.
var table = new Table();
var chosen = args.Length == 0 ? ["latency", "memory", "processor", "server", "writing", "columns", "report"] : args;
foreach (var name in chosen)
{
    await (name switch
    {
        "latency" => AlarmLatency.MeasureAsync(table),
        "memory" => Footprint.MeasureAsync(table),
        "processor" => Footprint.MeasureProcessorAsync(table),
        "server" => ServerCopy.MeasureAsync(table),
        "writing" => StoreSpeed.MeasureWritingAsync(table),
        "columns" => StoreSpeed.MeasureColumnsAsync(table),
        "report" => ReportTime.MeasureAsync(table),
        _ => throw new ArgumentException($"'{name}' is no benchmark; wanted latency, memory, processor, server, writing, columns, report"),
    });
}

return table.Held ? 0 : 1;
