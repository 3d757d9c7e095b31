using VatWatch.Testing.Instruments;

namespace VatWatch.SystemTests.Faults;

/// <summary>
/// Probes on the instruments of the rig, in the configuration's JSON. Every one of a bus says a bare number, so that nothing in an answer tells which
/// question it belongs to, and the numbers lie far apart, so that one that was given to the wrong question is seen.
/// </summary>
internal static class FaultProbes
{
    /// <summary>Temperature, pH and ORP from the text instrument, which must be <c>bare on</c> for values without their name.</summary>
    public static string Text(string bus, string every, string vat = "one", bool bare = false) => $$"""
        { "id": "{{vat}}-t", "measures": "temperature", "bus": "{{bus}}", "driver": "text-line", "every": "{{every}}",
          "settings": { "ask": "T?\\r\\n", "pattern": "{{(bare ? "^(?<value>[-+0-9.]+)$" : "^T=(?<value>[-+0-9.]+)C$")}}", "unit": "°C" } },
        { "id": "{{vat}}-ph", "measures": "ph", "bus": "{{bus}}", "driver": "text-line", "every": "{{every}}",
          "settings": { "ask": "PH?\\r\\n", "pattern": "{{(bare ? "^(?<value>[-+0-9.]+)$" : "^PH=(?<value>[-+0-9.]+)$")}}", "unit": "pH" } },
        { "id": "{{vat}}-orp", "measures": "orp", "bus": "{{bus}}", "driver": "text-line", "every": "{{every}}",
          "settings": { "ask": "ORP?\\r\\n", "pattern": "{{(bare ? "^(?<value>[-+0-9.]+)$" : "^ORP=(?<value>[-+0-9.]+)$")}}", "unit": "mV" } }
        """;

    /// <summary>Sets the registers that <see cref="Modbus"/> asks for.</summary>
    public static async Task FillAsync(PtyInstrument modbus)
    {
        await modbus.TellAsync("set 17 hr 5 4520");
        await modbus.TellAsync("set 17 hr 6 1000");
    }

    /// <summary>45.2 °C, and the room's 10 °C, from two registers of one device: answers of one form.</summary>
    public static string Modbus(string bus, string every, string vat = "two") => $$"""
        { "id": "{{vat}}-t", "measures": "temperature", "bus": "{{bus}}", "driver": "modbus-rtu", "every": "{{every}}",
          "settings": { "address": 17, "function": 3, "register": 5, "format": "int16", "scale": 0.01, "unit": "°C" } },
        { "id": "{{vat}}-room", "measures": "ambient", "bus": "{{bus}}", "driver": "modbus-rtu", "every": "{{every}}",
          "settings": { "address": 17, "function": 3, "register": 6, "format": "int16", "scale": 0.01, "unit": "°C" } }
        """;
}
