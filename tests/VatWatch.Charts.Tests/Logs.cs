using VatWatch.Alarms;
using VatWatch.Charts.Traces;
using VatWatch.Measurements;

namespace VatWatch.Charts.Tests;

/// <summary>Small logs for tests worked out by hand.</summary>
internal static class Logs
{
    /// <summary>A record of the given length with these readings.</summary>
    public static VatRecord Record(TimeSpan length, IEnumerable<Measurement> measurements, params AlarmChange[] changes) => new(
        NightOfWarming.Vat, DisplayUnits.Si, NightOfWarming.Start, NightOfWarming.Start + length, [.. measurements], changes);

    /// <summary>The trace of liquor readings a minute apart; null stands for a fault.</summary>
    public static ProbeTrace Minutes(params double?[] values) => Trace(values.Select((value, minute) => (minute * 1.0, value)));

    /// <summary>The trace of liquor readings at these minutes; null stands for a fault.</summary>
    public static ProbeTrace Trace(IEnumerable<(double Minute, double? Value)> readings) => ProbeTrace.Of(Liquor(readings)).Single();

    /// <summary>A record of liquor readings at these minutes, from the first to the last of them.</summary>
    public static VatRecord Liquor(IEnumerable<(double Minute, double? Value)> readings)
    {
        var measurements = readings.Select(reading => Reading(reading.Minute, reading.Value)).ToArray();
        return Record(measurements[^1].Stamp.Utc - NightOfWarming.Start, measurements);
    }

    /// <summary>One liquor reading; null stands for a fault.</summary>
    public static Measurement Reading(double minute, double? value) => value is { } good
        ? NightOfWarming.Good("liquor", Quantity.Temperature, TimeSpan.FromMinutes(minute), good)
        : NightOfWarming.Bad("liquor", Quantity.Temperature, TimeSpan.FromMinutes(minute), Quality.Fault, "open circuit");
}
