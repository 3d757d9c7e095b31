using VatWatch.Measurements;

namespace VatWatch.Daemon.Verbs;

/// <summary>What to look at on the bench when a probe gives no good value, by its driver. Longer tables stand in <c>hardware-notes/</c>.</summary>
internal static class BenchAdvice
{
    private static readonly Dictionary<string, (string Silent, string Wrong)> ByDriver = new(StringComparer.Ordinal)
    {
        ["text-line"] = (
            "Is the instrument on, and is its plug in this computer ('ls -l /dev/serial/by-id')? Do baud, parity and stop bits match its manual? Is \"ask\" what it wants, with its line ending?",
            "Compare the line shown with \"pattern\" and \"unit\"; a wrong speed or parity shows as odd characters."),
        ["modbus-rtu"] = (
            "Are A and B the right way round, the address and the speed those set in the instrument, and is the line terminated at both ends?",
            "Check function, register (40001 in a manual is register 0), format and scale against the instrument's table."),
        ["ads1115"] = (
            "Is the board powered and its address the one wired (0x48 to 0x4B)? Is I2C switched on and this user in its group?",
            "Check input, range and wiring; an open electrode or thermistor reads at the end of the range."),
        ["mcp9808"] = ("Is the board powered and its address the one wired (0x18 to 0x1F)?", "Another chip may answer at this address."),
        ["mcp960x"] = ("Is the board powered and its address the one wired (0x60 to 0x67)?", "Look at the thermocouple: open, shorted, of another type, or its two wires exchanged."),
        ["ufire-ise"] = ("Is the board powered and at address 0x3F?", "Is the electrode plugged in and in liquor?"),
        ["max31865"] = ("Is SPI switched on, and is chip select the one wired?", "Check the element's wires against \"wires\", and the reference resistor against \"reference\"."),
        ["onewire"] = ("Is 1-wire switched on, does the sensor's folder stand under /sys/bus/w1/devices, and is the pull-up resistor fitted?", "85.0 or 0.0 degrees without reason: look at the sensor's supply and ground."),
    };

    /// <summary>One sentence or two, or null when the value is good.</summary>
    public static string? For(ProbeDefinition probe, Measurement measurement)
    {
        if (measurement.Quality == Quality.Good)
        {
            return null;
        }

        if (measurement.Reason?.Contains("calibrated", StringComparison.Ordinal) == true)
        {
            return $"Calibrate it: vatwatch calibrate {(probe.Quantity == Quantity.Orp ? "orp" : "ph")} --probe {probe.Id}.";
        }

        var advice = ByDriver.GetValueOrDefault(probe.Driver, ("Look at the probe, its cable and its power.", "Look at the probe, its cable and its settings."));
        var neverAnswered = measurement.Quality == Quality.Missing || measurement.Reason?.Contains("open", StringComparison.Ordinal) == true;
        return neverAnswered ? advice.Item1 : advice.Item2;
    }
}
