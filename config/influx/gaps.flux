// How many readings of each probe were not good, by day and quality. Every reading has a qualityCode: 0 good, 1 suspect, 2 missing, 3 fault.
// Written from the documentation of Flux; not run here, because no InfluxDB was at hand.
from(bucket: "vats")
    |> range(start: -30d)
    |> filter(fn: (r) => r._measurement == "vat_reading" and r._field == "quality" and r._value != "good")
    |> duplicate(column: "_value", as: "quality")
    |> group(columns: ["site", "vat", "probe", "quality", "_start", "_stop"])
    |> aggregateWindow(every: 1d, fn: count, createEmpty: false)
