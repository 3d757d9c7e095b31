using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using VatWatch.Daemon.Wiring;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Writes a first configuration with comments. The bands are starting values of the trade and say so.</summary>
internal static class InitDocument
{
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The whole file.</summary>
    public static string Write(InitAnswers answers)
    {
        var buses = new InitBuses(answers);
        return $$"""
            // VatWatch, written by `vatwatch init`. JSON with comments; quantities carry their unit; unknown keys are refused.
            // `vatwatch check --config FILE` says everything that is wrong at once. Every key: vatwatch.schema.json.
            {
              "site": {{Text(answers.Site)}},
              "display": {{Text(answers.Display)}},            // "us": °F, US gal, lb, oz  ·  "si": °C, L, kg, g
              "data": {{Text(answers.Data ?? "data")}},             // folder of the store; --data outweighs it
              "web": { "listen": "http://127.0.0.1:8080" },
              "mqtt": { "broker": "builtin" },
              // Who is told of alarms, besides this machine's topics: "mail" and "contacts"; see README, "Making the phone ring".

              "buses": {
            {{buses.Section}}
              },

              "vats": [
                {
                  "id": {{Text(answers.VatId)}},
                  "name": {{Text(answers.VatName)}},
                  "volume": {{Text(answers.Volume)}},
                  "fibre": {{Text(answers.Fibre)}},
                  "reducer": {{Text(answers.Reducer)}},
                  // Starting values of the trade. Your own good days know better: change them when you know your vat.
                  "temperature": {{Temperature(answers)}},
            {{Ph(answers)}}{{Orp(answers)}}      "probes": [
            {{Probes(answers, buses)}}
                  ]
                }
              ]
            }

            """;
    }

    /// <summary>What <c>vatwatch check</c> says to a text.</summary>
    public static IReadOnlyList<ConfigFault> Faults(string document)
    {
        var faults = new ConfigFaults();
        if (ConfigFile.Parse(Encoding.UTF8.GetBytes(document), faults) is { } root)
        {
            DaemonConfiguration.Read(root, "configuration");
        }

        return faults.All;
    }

    public static string Text(string text) => JsonSerializer.Serialize(text, Plain);

    private static bool Has(InitAnswers answers, Quantity measures) => answers.Probes.Any(probe => probe.Quantity == measures);

    private static string Temperature(InitAnswers answers) => (answers.Reducer == "fermentation", answers.Display) switch
    {
        (true, "us") => """{ "low": "100 °F", "high": "110 °F", "limit": "120 °F" }""",
        (true, _) => """{ "low": "38 °C", "high": "43 °C", "limit": "49 °C" }""",
        (false, "us") => """{ "low": "100 °F", "high": "118 °F", "limit": "120 °F" }""",
        _ => """{ "low": "38 °C", "high": "48 °C", "limit": "49 °C" }""",
    };

    private static string Ph(InitAnswers answers) => !Has(answers, Quantity.Ph) ? "" : (answers.Reducer, answers.Fibre) switch
    {
        ("fermentation", _) => "      \"ph\": { \"low\": 9, \"high\": 10.5 },\n",
        (_, "protein") => "      \"ph\": { \"low\": 8.5, \"high\": 9.5 },   // for silk 9 to 10\n",
        _ => "      \"ph\": { \"low\": 10.5, \"high\": 11.5 },\n",
    };

    /// <summary>Half-reduced near -605 mV at pH 11 and -545 mV at pH 9, so a protein vat of low pH has its marks 60 mV higher.</summary>
    private static string Orp(InitAnswers answers)
    {
        if (!Has(answers, Quantity.Orp))
        {
            return "";
        }

        var (weak, oxidised) = (answers.Reducer, answers.Fibre) switch
        {
            ("fermentation", _) => (-515, -430),
            (_, "protein") => (-600, -520),
            _ => (-660, -580),
        };
        return $"      \"orp\": {{ \"weak\": \"{weak} mV\", \"oxidised\": \"{oxidised} mV\", \"reference\": \"Ag/AgCl 3 M KCl\", \"rising\": \"20 mV/h\" }},   // say which reference your electrode has\n";
    }

    private static string Probes(InitAnswers answers, InitBuses buses)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        return string.Join(",\n", answers.Probes.Select(probe => InitProbe.Write(probe, buses.NameOf(probe.Place), Named(probe.Quantity, names))));
    }

    private static string Named(Quantity measures, HashSet<string> taken)
    {
        var name = measures switch
        {
            Quantity.Temperature => "liquor",
            Quantity.Ambient => "room",
            Quantity.Heater or Quantity.HeaterCommand or Quantity.Level => measures.Word(),
            _ => $"liquor-{measures.Word()}",
        };
        var (unique, number) = (name, 1);
        while (!taken.Add(unique))
        {
            unique = $"{name}-{++number}";
        }

        return unique;
    }
}

/// <summary>Writes one probe of a first configuration, with settings to begin from.</summary>
internal static class InitProbe
{
    private const string Indent = "        ";

    public static string Write(ProbeWish wish, string bus, string id)
    {
        var every = wish.Quantity switch
        {
            Quantity.Ph or Quantity.Level => "30 s",
            Quantity.Orp => "10 s",
            Quantity.Ambient => "60 s",
            _ => "5 s",
        };
        var (settings, note) = Catalog.Everything.Drivers[wish.Driver].Begin(wish.Quantity, wish.Place.Text);
        var head = $"{{ \"id\": \"{id}\", \"measures\": \"{wish.Quantity.Word()}\", \"bus\": \"{bus}\", \"driver\": \"{wish.Driver}\", \"every\": \"{every}\"";
        var comment = note.Length == 0 ? "" : $"{Indent}// {note}\n";
        return $"{comment}{Indent}{head}{(settings.Length == 0 ? "" : $",\n{Indent}  \"settings\": {settings}")} }}";
    }
}
