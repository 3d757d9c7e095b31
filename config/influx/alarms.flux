// Every change of every alarm of the last seven days with its sentence, newest first, all sites together.
// Written from the documentation of Flux; not run here, because no InfluxDB was at hand.
from(bucket: "vats")
    |> range(start: -7d)
    |> filter(fn: (r) => r._measurement == "vat_alarm")
    |> filter(fn: (r) => contains(value: r._field, set: ["state", "before", "priority", "text", "by"]))
    |> pivot(rowKey: ["_time"], columnKey: ["_field"], valueColumn: "_value")
    |> group()
    |> sort(columns: ["_time"], desc: true)
