// The liquor temperature of one vat over the last 14 hours: lowest, mean and highest of every five minutes, so that no spike is lost.
// Written from the documentation of Flux; not run here, because no InfluxDB was at hand.
readings =
    from(bucket: "vats")
        |> range(start: -14h)
        |> filter(fn: (r) => r._measurement == "vat_reading" and r.site == "hill-studio" and r.vat == "madder-lane")
        |> filter(fn: (r) => r.measures == "temperature" and r._field == "value")

lowest = readings |> aggregateWindow(every: 5m, fn: min, createEmpty: false) |> set(key: "_field", value: "lowest")
mean_ = readings |> aggregateWindow(every: 5m, fn: mean, createEmpty: false) |> set(key: "_field", value: "mean")
highest = readings |> aggregateWindow(every: 5m, fn: max, createEmpty: false) |> set(key: "_field", value: "highest")

union(tables: [lowest, mean_, highest])
