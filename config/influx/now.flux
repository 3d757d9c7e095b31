// The newest value and quality of every probe at every site, and how long ago it came. A probe that fell silent shows by its age.
// Written from the documentation of Flux; not run here, because no InfluxDB was at hand.
from(bucket: "vats")
    |> range(start: -7d)
    |> filter(fn: (r) => r._measurement == "vat_reading" and (r._field == "value" or r._field == "qualityCode"))
    |> last()
    |> map(fn: (r) => ({r with minutesAgo: (int(v: now()) - int(v: r._time)) / 60000000000}))
    |> keep(columns: ["site", "vat", "probe", "measures", "unit", "_field", "_value", "_time", "minutesAgo"])
    |> group(columns: ["site", "vat", "_field"])
    |> sort(columns: ["probe"])
