namespace VatWatch.Daemon.Verbs.Init;

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
        var (note, settings) = Settings(wish);
        var head = $"{{ \"id\": \"{id}\", \"measures\": \"{wish.Quantity.Word()}\", \"bus\": \"{bus}\", \"driver\": \"{wish.Driver}\", \"every\": \"{every}\"";
        var comment = note.Length == 0 ? "" : $"{Indent}// {note}\n";
        return $"{comment}{Indent}{head}{(settings.Length == 0 ? "" : $",\n{Indent}  \"settings\": {settings}")} }}";
    }

    private static (string Note, string Settings) Settings(ProbeWish wish) => wish.Driver switch
    {
        "text-line" => (
            "From the instrument's manual: what it is asked (leave \"ask\" out when it sends by itself), and how its answer looks.",
            $$"""{ "ask": "{{Letter(wish.Quantity)}}?\\r", "pattern": "(?<value>[-+]?[0-9.]+)", "unit": "{{wish.Quantity.Unit()}}" }"""),
        "modbus-rtu" => (
            "From the transmitter's manual: address, function (3 holding, 4 input registers), register counted from 0, format and scale.",
            $$"""{ "address": 1, "function": 4, "register": 0, "format": "int16", "scale": {{Scale(wish.Quantity)}}, "unit": "{{wish.Quantity.Unit()}}" }"""),
        "ads1115" when wish.Quantity is Quantity.Temperature or Quantity.Ambient => (
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

    private static string Letter(Quantity measures) => measures switch
    {
        Quantity.Ph => "PH",
        Quantity.Orp => "ORP",
        Quantity.Temperature => "T",
        _ => measures.Word().ToUpperInvariant(),
    };

    private static string Scale(Quantity measures) => measures switch
    {
        Quantity.Ph => "0.01",
        Quantity.Orp or Quantity.Heater or Quantity.HeaterCommand => "1",
        _ => "0.1",
    };
}
