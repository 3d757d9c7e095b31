namespace VatWatch.Plans.Warm;

/// <summary>
/// What a person looks at before a heater goes on, each night anew (safety reference, §5: start of a warm-up plan). A plan is not leave to let a heater run
/// unattended: only the heater's own instructions can give that.
/// </summary>
/// <param name="Word">Name of the point in forms.</param>
public sealed record NightCheck(string Word, string Sentence);

/// <summary>The points of the list for one night.</summary>
public static class NightList
{
    /// <summary>Written over the list wherever it is shown.</summary>
    public const string Heading =
        "VatWatch only watches: it is no safety device and switches nothing. Nothing here says that the heater may run with nobody there. Look at each of these tonight:";

    /// <summary>One appliance on a cord loads its circuit with at most this share (from a national code, quoted at second hand).</summary>
    private const double CircuitShare = 0.8;

    /// <summary>The list for a heater.</summary>
    /// <param name="watts">Its power, W.</param>
    /// <param name="units">The dyer's units; °F stands for mains of 120 V, °C for 230 V.</param>
    public static IReadOnlyList<NightCheck> Of(double watts, DisplayUnits units)
    {
        var volts = units.IsUs ? 120 : 230;
        var amps = watts / volts;
        return
        [
            new("instructions", "The heater's own instructions allow this vessel, and allow it to heat the way it will tonight; where they want somebody with it, somebody stays."),
            new("cutout", "A thermostat of its own and a separate cut-out that is reset by hand guard the heater, and both were tried."),
            new("level", "The liquor stands above the heater's mark, with room for what the night will evaporate, and the heater touches neither wall nor floor."),
            new("ground-fault", "The ground-fault protection of its outlet was tried this month."),
            new("circuit", $"The circuit carries it with nothing else on it: {watts:0} W is {amps:0.0} A at {volts} V, so a circuit of at least {Math.Ceiling(amps / CircuitShare):0} A."),
            new("clear", "The yarn is out, the lid and the probe are in place, and nothing that burns lies near heater, cord or plug."),
        ];
    }
}
