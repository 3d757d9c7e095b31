namespace VatWatch.Daemon.Web.Drawing;

/// <summary>
/// A stretch of a vat's record for a drawing. Times are milliseconds since 1970-01-01 UTC, numbers are in the dyer's units, and traces are columns, so
/// that a year is no larger than an hour.
/// </summary>
/// <param name="Name">Its name for people.</param>
/// <param name="From">Start.</param>
/// <param name="To">End; may lie ahead of now.</param>
/// <param name="Now">This moment by the vat's clock.</param>
/// <param name="Zone">Time zone of the studio, as the IANA data base names it.</param>
/// <param name="ZoneOffset">Its offset from UTC at the end, milliseconds.</param>
/// <param name="Traces">What the probes recorded.</param>
/// <param name="Bands">Where values are wanted.</param>
/// <param name="Marks">What happened, in order of time.</param>
/// <param name="Forecast">Where the temperature is foreseen to go; null when nothing is drawn ahead.</param>
/// <param name="NoForecast">Then why not, as a clause; null when nobody asked for what lies ahead.</param>
/// <param name="Corridor">Where a warm-up that was begun should bring the temperature; null without one.</param>
/// <param name="Summary">The drawing in words.</param>
internal sealed record ChartReply(
    string Vat, string Name, long From, long To, long Now, string Zone, long ZoneOffset, IReadOnlyList<TraceReply> Traces,
    IReadOnlyList<BandReply> Bands, IReadOnlyList<MarkReply> Marks, ForecastPathReply? Forecast, string? NoForecast, CorridorReply? Corridor, string Summary);

/// <summary>One probe's columns: the same place in each list is one column.</summary>
/// <param name="Measures">temperature, ambient, ph, orp, heater or level.</param>
/// <param name="Label">What it is called.</param>
/// <param name="Unit">Unit of the numbers; may be empty.</param>
/// <param name="Start">When each column begins.</param>
/// <param name="Width">How long a column is, milliseconds.</param>
/// <param name="First">First value.</param>
/// <param name="Last">Last value.</param>
/// <param name="Min">Smallest value.</param>
/// <param name="Max">Largest value.</param>
/// <param name="Breaks">Places of the columns before which the trace is broken: no value for longer than three sample periods.</param>
internal sealed record TraceReply(
    string Probe, string Measures, string Label, string Unit, long[] Start, long Width,
    double[] First, double[] Last, double[] Min, double[] Max, int[] Breaks);

/// <summary>Where a kind of value is wanted.</summary>
/// <param name="Measures">temperature, ph or orp.</param>
/// <param name="Low">Lower edge of the band; null where it is open.</param>
/// <param name="High">Upper edge of the band.</param>
/// <param name="Limit">Where it becomes bad; null when there is no such line.</param>
/// <param name="LimitName">What that line is called.</param>
internal sealed record BandReply(string Measures, double? Low, double? High, double? Limit, string? LimitName);

/// <summary>Something that happened.</summary>
/// <param name="At">When.</param>
/// <param name="Until">When it was over; null for what has no length or is not over.</param>
/// <param name="Kind">dip-in, dip-out, added, handled, note, alarm or calibration.</param>
/// <param name="Letter">What stands in the mark.</param>
/// <param name="Text">What, in words, with the time of day.</param>
internal sealed record MarkReply(long At, long? Until, string Kind, string Letter, string Text);

/// <summary>The temperature ahead; the same place in each list is one moment.</summary>
/// <param name="At">When.</param>
/// <param name="Low">Lower edge of the band of about 90 %.</param>
/// <param name="Middle">Best estimate.</param>
/// <param name="High">Upper edge.</param>
internal sealed record ForecastPathReply(long[] At, double[] Low, double[] Middle, double[] High);

/// <summary>The corridor of a warm-up; the same place in each list is one moment. About 90 % of all warm-ups run between its edges.</summary>
/// <param name="At">When.</param>
/// <param name="Low">Lower edge, up to the vat's limit.</param>
/// <param name="High">Upper edge, up to the vat's limit.</param>
internal sealed record CorridorReply(long[] At, double[] Low, double[] High);
