using VatWatch.Alarms;
using VatWatch.Measurements;
using VatWatch.Vats.Configuration;

namespace VatWatch.Charts.Tests;

/// <summary>
/// A made-up night, the same every time: a 40 gal vat warms from 24 °C from 20:00 on, overshoots its limit, and cools when the heater is pulled;
/// 25 min without any record; a pH probe in fault; some doubtful ORP values while ORP rises from −735 to −600 mV.
/// </summary>
internal sealed class NightOfWarming
{
    public static readonly DateTimeOffset Start = new(2026, 3, 6, 1, 0, 0, TimeSpan.Zero);
    public static readonly TimeZoneInfo NewYork = TimeZoneInfo.FindSystemTimeZoneById("America/New_York");

    private static readonly VatId VatId = new("madder-lane");
    private readonly TimeSpan _every;
    private readonly TimeSpan _length;

    public NightOfWarming(TimeSpan? length = null, TimeSpan? every = null)
    {
        _length = length ?? TimeSpan.FromHours(12);
        _every = every ?? TimeSpan.FromSeconds(5);
    }

    public static VatDefinition Vat { get; } = new()
    {
        Id = VatId,
        Name = "Madder Lane vat",
        VolumeLitres = 151.4,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new TemperatureBand(37.78, 47.78, 48.89),
        Ph = new PhBand(9.5, 10.5),
        Orp = new OrpLimits(-660, -580, "Ag/AgCl 3 M KCl", 20),
        HeaterWatts = 1400,
        Probes =
        [
            Probe("liquor", Quantity.Temperature), Probe("room", Quantity.Ambient), Probe("ph-glass", Quantity.Ph), Probe("orp-platinum", Quantity.Orp),
            Probe("heater-relay", Quantity.Heater),
        ],
    };

    public VatRecord Record(DisplayUnits? units = null, string? name = null) => new(
        name is null ? Vat : Vat with { Name = name }, units ?? DisplayUnits.Us, Start, Start + _length, [.. Measurements()], [.. Alarms()]);

    public IEnumerable<Measurement> Measurements()
    {
        var random = new Random(40);
        var (temperature, hours) = (24.0, 0.0);
        for (var time = TimeSpan.Zero; time <= _length; time += _every)
        {
            hours = time.TotalHours;
            var heating = hours is > 0.1 and < 7.4 && !(hours > 6 && hours % 0.4 < 0.1);
            temperature += ((heating ? 5.6 : 0) - 0.062 * (temperature - Room(hours))) * _every.TotalHours;
            if (hours is > 3.1 and < 3.52)
                continue;
            double Noise(double size) => (random.NextDouble() - 0.5) * size;
            yield return Good("liquor", Quantity.Temperature, time, temperature + Noise(0.12));
            yield return Good("room", Quantity.Ambient, time, Room(hours) + Noise(0.1));
            yield return Ph(time, 10.22 - 0.055 * hours + Noise(0.04));
            var orp = -735 + (hours > 5 ? (hours - 5) * 21 : 0) + Noise(4);
            yield return hours is > 8.2 and < 8.9
                ? Good("orp-platinum", Quantity.Orp, time, orp + Noise(14)) with { Quality = Quality.Suspect, Reason = "noisy" }
                : Good("orp-platinum", Quantity.Orp, time, orp);
            yield return Good("heater-relay", Quantity.Heater, time, heating ? 1 : 0);
        }
    }

    public static Measurement Good(string probe, Quantity measures, TimeSpan at, double value) => new(
        VatId, new ProbeId(probe), measures, StampAt(at), value, value, Quality.Good, null, null);

    public static Measurement Bad(string probe, Quantity measures, TimeSpan at, Quality quality, string reason) => new(
        VatId, new ProbeId(probe), measures, StampAt(at), null, null, quality, reason, null);

    public static Stamp StampAt(TimeSpan at) => new(Start + at, TimeSpan.FromHours(30) + at, true);

    public static AlarmChange Change(
        string alarm, AlarmState before, AlarmState after, TimeSpan at, TimeSpan since, string? by = null, AlarmPriority priority = AlarmPriority.High) => new(
        before,
        new AlarmStatus
        {
            Alarm = new AlarmName(alarm),
            Vat = VatId,
            State = after,
            Priority = priority,
            Since = StampAt(since),
            Text = $"{alarm}: made up for a test",
            Action = "Look at the vat.",
            AcknowledgedBy = by,
        },
        StampAt(at), by, true);

    private IEnumerable<AlarmChange> Alarms()
    {
        static TimeSpan Hours(double hours) => TimeSpan.FromHours(hours);
        AlarmChange[] all =
        [
            Change("overheat-forecast", AlarmState.Normal, AlarmState.Unacknowledged, Hours(5.5), Hours(5.5)),
            Change("probe-fault.ph-glass", AlarmState.Normal, AlarmState.Unacknowledged, Hours(5.85), Hours(5.85), priority: AlarmPriority.Medium),
            Change("overheat", AlarmState.Normal, AlarmState.Unacknowledged, Hours(6.2), Hours(6.2), priority: AlarmPriority.Critical),
            Change("probe-fault.ph-glass", AlarmState.Unacknowledged, AlarmState.ReturnedUnacknowledged, Hours(6.3), Hours(5.85), priority: AlarmPriority.Medium),
            Change("overheat-forecast", AlarmState.Unacknowledged, AlarmState.Acknowledged, Hours(7.3), Hours(5.5), "Ada"),
            Change("overheat", AlarmState.Unacknowledged, AlarmState.Acknowledged, Hours(7.35), Hours(6.2), "Ada", AlarmPriority.Critical),
            Change("probe-fault.ph-glass", AlarmState.ReturnedUnacknowledged, AlarmState.Normal, Hours(7.4), Hours(7.4), "Ada", AlarmPriority.Medium),
            Change("overheat-forecast", AlarmState.Acknowledged, AlarmState.Normal, Hours(7.6), Hours(7.6)),
            Change("redox-weak", AlarmState.Normal, AlarmState.Unacknowledged, Hours(8.75), Hours(8.75)),
            Change("overheat", AlarmState.Acknowledged, AlarmState.Normal, Hours(9.1), Hours(9.1), priority: AlarmPriority.Critical),
        ];
        return all.Where(change => change.Stamp.Utc <= Start + _length);
    }

    private static Measurement Ph(TimeSpan time, double value) => time.TotalHours is > 5.8 and < 6.3
        ? Bad("ph-glass", Quantity.Ph, time, Quality.Fault, "reply '==, \"E4\"' is not a number like '6.873'")
        : Good("ph-glass", Quantity.Ph, time, value);

    private static double Room(double hours) => 15.5 - 2.5 * Math.Sin(hours / 12 * Math.PI);

    private static ProbeDefinition Probe(string id, Quantity measures) => new(
        new ProbeId(id), VatId, measures, new BusId("bench"), "text-line", TimeSpan.FromSeconds(5), SampleUnit.Canonical(measures));
}
