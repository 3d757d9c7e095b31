using VatWatch.Nights.Physics;
using VatWatch.Vats;
using VatWatch.Vats.Configuration;

namespace VatWatch.Nights.Scenes;

/// <summary>What a studio is furnished with, and the configuration that says so to the watch.</summary>
internal sealed record StudioPlan
{
    public const string Power = "heater";
    public const string Command = "heater-command";

    public required VatBody Body { get; init; }

    public required double Watts { get; init; }

    public required double Low { get; init; }

    public required double High { get; init; }

    public required double Limit { get; init; }

    public required int StartHour { get; init; }

    public required double Ph { get; init; }

    /// <summary>The hour the vat should be ready, UTC.</summary>
    public required int ReadyHour { get; init; }

    /// <summary>Warmth at the start; null for about the room's.</summary>
    public double? StartCelsius { get; init; }

    /// <summary>The vat has a lid, which is on at night.</summary>
    public bool Lidded { get; init; } = true;

    /// <summary>How much warmer than the room it may be at the start, K.</summary>
    public double Lukewarm { get; init; } = 10;

    public bool Coarse { get; init; }

    public bool HasBath { get; init; }

    /// <summary><see cref="Power"/>, <see cref="Command"/> or null.</summary>
    public string? HeaterProbe { get; init; }

    /// <summary>The heater probe is a meter that gives watts, where the watch can read one; else it says on or off.</summary>
    public bool Metered { get; init; }

    /// <summary>Unit of the heater probe.</summary>
    public string PowerUnit => Metered && SampleUnit.TryParse("W", Quantity.Heater, out _) ? "W" : "on/off";

    /// <summary>A thermometer hangs in the room.</summary>
    public bool HasRoomProbe { get; init; }

    /// <summary>The heater's rating is in the configuration.</summary>
    public bool SaysWatts { get; init; }

    /// <summary>The configuration says by when the vat should be warm.</summary>
    public bool SaysReadyBy { get; init; }

    /// <summary>Warm-ups are entered in the log book.</summary>
    public bool Enters { get; init; }

    public double Middle => (Low + High) / 2;

    public static StudioPlan Draw(Chance chance)
    {
        var body = VatBody.Draw(chance.Fork());
        var rate = chance.Spread(2.5, 13);
        var low = chance.Uniform(37.5, 42);
        var high = low + chance.Uniform(4, 8);
        return new StudioPlan
        {
            Body = body,
            Watts = Math.Clamp(Math.Round(rate * body.Litres * 1.163 / 50) * 50, 300, 3000),
            Low = Math.Round(low, 1),
            High = Math.Round(high, 1),
            Limit = Math.Round(high + chance.Uniform(0.6, 3), 1),
            StartHour = (int)chance.Uniform(17, 23),
            ReadyHour = (int)chance.Uniform(6, 10),
            Ph = chance.Uniform(9.4, 10.5),
            Lidded = chance.Happens(0.8),
            Metered = chance.Happens(0.5),
            HasRoomProbe = chance.Happens(0.25),
            Coarse = chance.Happens(0.15),
            HasBath = chance.Happens(0.3),
            HeaterProbe = chance.Happens(0.3) ? Power : null,
            SaysWatts = chance.Happens(0.5),
            SaysReadyBy = chance.Happens(0.5),
            Enters = chance.Happens(0.5),
        };
    }

    /// <summary>The heater can hold the vat at this warmth with a share of its power.</summary>
    public bool CanHold(double celsius, double share) => Body.Loss(celsius, 14, Lidded) < share * Watts;

    /// <summary>JSON for <c>--config</c>. The log's probes stand on a serial port, which a replay never opens.</summary>
    public string Configuration(Studio studio)
    {
        var probes = new List<string> { Probe(MadeNight.Liquor, "temperature", studio.Thermometer.Period, "°C") };
        if (HeaterProbe == Power)
            probes.Add(Probe("heater", "heater", studio.Thermometer.Period, PowerUnit));
        else if (HeaterProbe == Command)
            probes.Add(Probe("command", EnumWord.Find<Quantity>(Command) is not null ? Command : Power, studio.Thermometer.Period, "on/off"));
        if (HasRoomProbe)
            probes.Add(Probe("room", "ambient", Studio.RoomPeriod, "°C"));
        var bath = "";
        if (studio.Bath is { } reducing)
        {
            probes.Add(Probe("orp", "orp", studio.Orp!.Period, "mV"));
            probes.Add(Probe("ph", "ph", studio.PhElectrode!.Period, "pH"));
            bath = $$"""
                "ph": { "low": {{Ph - 0.5:0.0}}, "high": {{Ph + 0.5:0.0}} },
                "orp": { "weak": "{{Weak(reducing):0}} mV", "oxidised": "{{Oxidised(reducing):0}} mV", "reference": "Ag/AgCl 3 M KCl", "rising": "20 mV/h" },
                """ + "\n      ";
        }

        var alarms = SaysReadyBy ? $$""" "alarms": { "cold": { "readyBy": "{{ReadyHour:00}}:00", "readyFor": "1 h", "zone": "UTC" } },""" : "";
        var rating = SaysWatts || (HeaterProbe == Power && PowerUnit == "W") ? $$""" "heater": "{{Watts:0}} W",""" : "";
        return $$"""
            {
              "site": "nights", "display": "si",
              "buses": { "bench": { "kind": "serial", "port": "/dev/null" } },
              "vats": [ {
                "id": "{{MadeNight.Vat}}", "volume": "{{Body.Litres:0}} L", "fibre": "cellulose", "reducer": "thiourea-dioxide", "altitude": "{{Body.Altitude:0}} m",{{rating}}{{alarms}}
                "temperature": { "low": "{{Low:0.0}} °C", "high": "{{High:0.0}} °C", "limit": "{{Limit:0.0}} °C" },
                {{bath}}"probes": [
                  {{string.Join(",\n      ", probes)}}
                ]
              } ]
            }
            """;
    }

    public static double Weak(ReducingBath bath) => Math.Round(bath.Best + 1.5 * bath.MillivoltsPerFold);

    public static double Oxidised(ReducingBath bath) => Math.Round(bath.Best + 3.0 * bath.MillivoltsPerFold);

    private static string Probe(string id, string measures, int seconds, string unit) =>
        $$"""{ "id": "{{id}}", "measures": "{{measures}}", "bus": "bench", "driver": "text-line", "every": "{{seconds}} s", "settings": { "pattern": "(?<value>[-+0-9.]+)", "unit": "{{unit}}" } }""";
}
