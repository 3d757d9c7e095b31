// How fast the ORP of each vat rises or falls, mV per hour, from its means of ten minutes. Readings that are not good are left out.
// Written from the documentation of Flux; not run here, because no InfluxDB was at hand.
from(bucket: "vats")
    |> range(start: -24h)
    |> filter(fn: (r) => r._measurement == "vat_reading" and r.measures == "orp")
    |> filter(fn: (r) => r._field == "value" or r._field == "qualityCode")
    |> pivot(rowKey: ["_time"], columnKey: ["_field"], valueColumn: "_value")
    |> filter(fn: (r) => exists r.value and r.qualityCode == 0)
    |> rename(columns: {value: "_value"})
    |> aggregateWindow(every: 10m, fn: mean, createEmpty: false)
    |> derivative(unit: 1h, nonNegative: false)
