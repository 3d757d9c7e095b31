using VatWatch.Alarms;
using VatWatch.Conditions.Stored;
using VatWatch.Store;

namespace VatWatch.Influx;

/// <summary>
/// What the store holds, as points. The same row always gives the same point, and two rows never the same series and time: the digits below
/// the store's own resolution carry the row's order. FORMAT.md names everything. Not thread safe.
/// </summary>
/// <param name="site">Name of the place; first tag of every point.</param>
/// <param name="units">Units in which alarms are told.</param>
internal sealed class PointLines(string site, DisplayUnits units)
{
    private readonly LineBuilder _line = new();

    /// <summary>A reading, also one without a value.</summary>
    public string Of(StoredMeasurement row)
    {
        var reading = row.Measurement;
        return _line.Begin("vat_reading")
            .Tag("site", site)
            .Tag("vat", reading.Vat.Value)
            .Tag("probe", reading.Probe.Value)
            .Tag("measures", reading.Quantity.Word())
            .Tag("unit", reading.Quantity.Unit())
            .Number("value", reading.Value)
            .Number("raw", reading.Raw)
            .Text("quality", reading.Quality.Word())
            .Whole("qualityCode", (long)reading.Quality)
            .Text("reason", reading.Reason)
            .Whole("calibration", reading.Calibration)
            .Flag("utcTrusted", reading.Stamp.UtcTrusted)
            .End(Nanoseconds(reading.Stamp.Utc) + row.Order);
    }

    public string Of(StoredCondition condition)
    {
        _line.Begin("vat_condition")
            .Tag("site", site)
            .Tag("vat", condition.Vat.Value)
            .Text("state", condition.State)
            .Text("reasons", string.Join(' ', condition.Reasons))
            .Flag("utcTrusted", condition.UtcTrusted);
        foreach (var (name, number) in condition.Numbers)
        {
            _line.Number(name, number);
        }

        return _line.End(Nanoseconds(condition.Utc) + condition.Id % HundredNanoseconds);
    }

    public string Of(StoredAlarmChange stored)
    {
        var (change, status) = (stored.Change, stored.Change.Status);
        var (text, value, limit, unit) = status.In(units);
        return _line.Begin("vat_alarm")
            .Tag("site", site)
            .Tag("vat", status.Vat.Value)
            .Tag("alarm", status.Alarm.Value)
            .Text("state", status.State.Word())
            .Text("before", change.Before.Word())
            .Text("priority", status.Priority.Word())
            .Flag("active", status.IsActive)
            .Number("value", value)
            .Number("limit", limit)
            .Text("unit", unit)
            .Text("text", text)
            .Text("action", status.Action)
            .Text("by", change.By)
            .Flag("announced", change.Announce)
            .Flag("utcTrusted", change.Stamp.UtcTrusted)
            .End(Nanoseconds(change.Stamp.Utc) + stored.Id % HundredNanoseconds);
    }

    private static Int128 Nanoseconds(DateTimeOffset utc) => (Int128)(utc.UtcTicks - DateTimeOffset.UnixEpoch.UtcTicks) * HundredNanoseconds;

    /// <summary>One tick of the clock in nanoseconds.</summary>
    private const int HundredNanoseconds = 100;
}
