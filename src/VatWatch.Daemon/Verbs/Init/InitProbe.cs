using VatWatch.Vats;

namespace VatWatch.Daemon.Verbs.Init;

/// <summary>Writes one probe of a first configuration, with settings to begin from.</summary>
internal static class InitProbe
{
    private const string Indent = "        ";

    public static string Write(ProbeWish wish, string bus, string id)
    {
        var every = wish.Measures switch
        {
            Measures.Ph or Measures.Level => "30 s",
            Measures.Orp => "10 s",
            Measures.Ambient => "60 s",
            _ => "5 s",
        };
        var (note, settings) = Settings(wish);
        var head = $"{{ \"id\": \"{id}\", \"measures\": \"{wish.Measures.Word()}\", \"bus\": \"{bus}\", \"driver\": \"{wish.Driver}\", \"every\": \"{every}\"";
        var comment = note.Length == 0 ? "" : $"{Indent}// {note}\n";
        return $"{comment}{Indent}{head}{(settings.Length == 0 ? "" : $",\n{Indent}  \"settings\": {settings}")} }}";
    }

    private static (string Note, string Settings) Settings(ProbeWish wish) => wish.Driver switch
    {
        "text-line" => (
            "From the instrument's manual: what it is asked (leave \"ask\" out when it sends by itself), and how its answer looks.",
            $$"""{ "ask": "{{Letter(wish.Measures)}}?\\r", "pattern": "(?<value>[-+]?[0-9.]+)", "unit": "{{wish.Measures.Unit()}}" }"""),
        "modbus-rtu" => (
            "From the transmitter's manual: address, function (3 holding, 4 input registers), register counted from 0, format and scale.",
            $$"""{ "address": 1, "function": 4, "register": 0, "format": "int16", "scale": {{Scale(wish.Measures)}}, "unit": "{{wish.Measures.Unit()}}" }"""),
        "ads1115" when wish.Measures is Measures.Temperature or Measures.Ambient => (
            "A thermistor to ground with 10 kΩ to the supply; \"beta\" from its sheet.",
            """{ "address": "0x48", "input": "ain1", "thermistor": { "series": "10 kΩ", "supply": "3.3 V", "nominal": "10 kΩ", "beta": "3977 K" } }"""),
        "ads1115" => (
            "Gain and zero of the electrode's amplifier, from its sheet. `vatwatch calibrate` does the rest.",
            """{ "address": "0x48", "input": "ain0", "rate": 8, "electrode": { "gain": 1, "zero": "0 mV" } }"""),
        "onewire" => ("", $$"""{ "id": "{{wish.Place.Text}}" }"""),
        "mcp9808" => ("", """{ "address": "0x18" }"""),
        "mcp960x" => ("", """{ "address": "0x67", "type": "K" }"""),
        "max31865" => (
            "A platinum element: pt100 or pt1000, its wires, the reference resistor printed on the board, and your mains.",
            """{ "element": "pt100", "wires": 3, "reference": "430 Ω", "mains": "60 Hz" }"""),
        "ufire-ise" => ("", """{ "address": "0x3F" }"""),
        _ => ("", ""),
    };

    private static string Letter(Measures measures) => measures switch
    {
        Measures.Ph => "PH",
        Measures.Orp => "ORP",
        Measures.Temperature => "T",
        _ => measures.Word().ToUpperInvariant(),
    };

    private static string Scale(Measures measures) => measures switch
    {
        Measures.Ph => "0.01",
        Measures.Orp or Measures.Heater => "1",
        _ => "0.1",
    };
}
