using Microsoft.Extensions.Time.Testing;
using VatWatch.Alarms;
using VatWatch.Conditions;
using VatWatch.Measurements;
using VatWatch.Pipeline;
using VatWatch.Testing;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Tests.Web;

/// <summary>Pictures of vats in states that a page has to show. The clock stands at 03:20 UTC unless a test moves it.</summary>
internal sealed class Scenes
{
    public static readonly DateTimeOffset Start = new(2026, 3, 4, 3, 20, 0, TimeSpan.Zero);

    public Scenes()
    {
        Time = new(Start);
        Clock = new(Time);
        Feed = new(Clock);
    }

    public FakeTimeProvider Time { get; }

    public WatchClock Clock { get; }

    public StillFeed Feed { get; }

    public static VatDefinition Vat(string id = "madder-lane", string name = "Madder Lane vat") => new()
    {
        Id = new(id),
        Name = name,
        VolumeLitres = 40 * DisplayUnits.LitresPerUsGallon,
        Fibre = Fibre.Protein,
        Reducer = ReducingAgent.ThioureaDioxide,
        Temperature = new(38, 48, 49),
        Ph = new(9.5, 10.5),
        Orp = new(-660, -580, "Ag/AgCl 3 M KCl", 20),
        Probes =
        [
            Probe($"{id}-liquor", id, Quantity.Temperature, 5),
            Probe($"{id}-ph", id, Quantity.Ph, 10),
            Probe($"{id}-orp", id, Quantity.Orp, 10),
            Probe($"{id}-room", id, Quantity.Ambient, 30),
            Probe($"{id}-heater", id, Quantity.Heater, 5),
        ],
    };

    public Scenes Warming()
    {
        Feed.Vats = [Live(Vat(), VatState.Warming, ["Liquor is 93.4 °F and rising 6.8 °F/h; the band starts at 100.4 °F."], 34.1, 10.02, -652, 3.8, -4,
            toBand: new(TimeSpan.FromMinutes(55), TimeSpan.FromMinutes(66), TimeSpan.FromMinutes(81)))];
        return this;
    }

    public Scenes Ready()
    {
        Feed.Vats =
        [
            Live(Vat(), VatState.Ready, ["In the band, reduced and alkaline.", "ORP has been steady for 40 min.", "pH 9.98 suits protein fibre."], 45.2, 9.98, -722, 0.1, -1),
            Live(Vat("north-tub", "North tub"), VatState.Resting, ["Recovering after the dip at 02:50; ORP falls back 38 mV/h."], 42.0, 10.11, -671, -0.9, -38),
        ];
        return this;
    }

    public Scenes Overheat()
    {
        var overheat = Alarm("overheat", AlarmPriority.Critical, AlarmState.Unacknowledged,
            "Madder Lane vat: liquor is 121.3 °F, limit 120.2 °F.", "Switch the heater off at the plug now. Take the lid off and keep clear of the liquor.",
            121.3, 120.2, "°F");
        var rising = Alarm("redox-rising", AlarmPriority.High, AlarmState.Acknowledged,
            "Madder Lane vat: ORP rises 26 mV/h, wanted less than 20 mV/h.", "Check the lid; look for foam and splashing.", 26, 20, "mV/h") with
        {
            AcknowledgedBy = "Ada",
            AcknowledgedAt = Start - TimeSpan.FromMinutes(9),
        };
        Feed.Vats =
        [
            Live(Vat(), VatState.TooHot, ["Liquor is 121.3 °F, above the limit of 120.2 °F, and rising 5.2 °F/h."], 49.6, 10.0, -655, 2.9, 26) with { Alarms = [overheat, rising] },
            Live(Vat("north-tub", "North tub"), VatState.Ready, ["In the band, reduced and alkaline."], 44.1, 9.9, -705, 0, 0,
                toLimit: new(TimeSpan.FromMinutes(95), TimeSpan.FromMinutes(140), null)),
        ];
        return this;
    }

    public Scenes ProbeSilent()
    {
        var vat = Vat();
        var live = Live(vat, VatState.Unknown, ["The liquor probe has been silent for 4 min."], 41, 10.05, -690, null, null);
        var silent = live.Latest[0] with { Raw = null, Value = null, Quality = Quality.Missing, Reason = "no reply within 1 s" };
        var doubtful = live.Latest[1] with { Quality = Quality.Suspect, Reason = "flat for 30 min" };
        Feed.Vats =
        [
            live with
            {
                Latest = [silent, doubtful, .. live.Latest.Skip(2)],
                Alarms = [Alarm("probe-silent.madder-lane-liquor", AlarmPriority.Critical, AlarmState.ReturnedUnacknowledged,
                    "Madder Lane vat: probe madder-lane-liquor is silent.", "Look at the vat. Switch the heater off at the plug until the temperature is known.")],
            },
        ];
        Feed.DaemonAlarms = [Alarm("broker-lost", AlarmPriority.High, AlarmState.Unacknowledged,
            "The message broker cannot be reached; phones are not told.", "Check the network.") with { Vat = VatId.Daemon }];
        return this;
    }

    public Scenes Old()
    {
        Ready();
        Time.Advance(TimeSpan.FromMinutes(14));
        return this;
    }

    public Scenes Hostile()
    {
        const string evil = "<script>alert('x')</script>\"><img src=x onerror=alert(1)>";
        var vat = Vat("evil", evil);
        var live = Live(vat, VatState.Unknown, [evil], 41, 10, -600, null, null);
        Feed.Vats =
        [
            live with
            {
                Latest = [live.Latest[0] with { Quality = Quality.Fault, Reason = evil }, .. live.Latest.Skip(1)],
                Alarms = [Alarm("overheat", AlarmPriority.High, AlarmState.Unacknowledged, evil, evil) with { Vat = vat.Id, AcknowledgedBy = evil }],
            },
        ];
        return this;
    }

    public AlarmStatus Alarm(string name, AlarmPriority priority, AlarmState state, string text, string action, double? value = null, double? limit = null, string unit = "") => new()
    {
        Alarm = new(name),
        Vat = new("madder-lane"),
        State = state,
        Priority = priority,
        Since = Clock.Now().Plus(TimeSpan.FromMinutes(-12)),
        Value = value,
        Limit = limit,
        Unit = unit,
        Text = text,
        Action = action,
    };

    public LiveVat Live(
        VatDefinition vat, VatState state, string[] reasons, double temperature, double ph, double orp, double? rate, double? orpRate, Forecast? toBand = null, Forecast? toLimit = null) => new(
        vat,
        [
            Reading(vat, 0, temperature, 3), Reading(vat, 1, ph, 6), Reading(vat, 2, orp, 8), Reading(vat, 3, 17.5, 12), Reading(vat, 4, 1, 2),
        ],
        new()
        {
            Vat = vat.Id,
            Stamp = Clock.Now().Plus(TimeSpan.FromSeconds(-3)),
            State = state,
            Reasons = reasons,
            TemperatureC = temperature,
            TemperatureRateKPerHour = rate,
            Ph = ph,
            OrpMillivolts = orp,
            OrpRateMillivoltsPerHour = orpRate,
            TimeToBand = toBand,
            TimeToLimit = toLimit,
        },
        []);

    private Measurement Reading(VatDefinition vat, int probe, double value, int secondsAgo) =>
        new(vat.Id, vat.Probes[probe].Id, vat.Probes[probe].Quantity, Clock.Now().Plus(TimeSpan.FromSeconds(-secondsAgo)), value, value, Quality.Good, null, null);

    private static ProbeDefinition Probe(string id, string vat, Quantity measures, int seconds) =>
        new(new(id), new(vat), measures, new("bench"), "text-line", TimeSpan.FromSeconds(seconds), SampleUnit.Canonical(measures));
}
