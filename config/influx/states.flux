// The state of each vat over a day, with the minutes up to the next condition, and the sum of them by state: how long it was ready.
// Written from the documentation of Flux; not run here, because no InfluxDB was at hand.
import "contrib/tomhollingworth/events"

from(bucket: "vats")
    |> range(start: -24h)
    |> filter(fn: (r) => r._measurement == "vat_condition" and r._field == "state")
    |> events.duration(unit: 1m, columnName: "minutes", stop: now())
    |> rename(columns: {_value: "state"})
    |> group(columns: ["site", "vat", "state"])
    |> sum(column: "minutes")
