using System.Device.Gpio;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Gpio;

/// <summary>
/// The driver <c>contact</c>, on a bus of kind <c>gpio</c>: a dry contact of a relay (<c>heater</c>, <c>heater-command</c>) or a float switch
/// (<c>level</c>: 100 % or 0 %). <c>line</c>: its number on the chip, 0 to 511. <c>to</c>: <c>ground</c> (default) or <c>supply</c>, what the
/// contact joins the line to. <c>pull</c>: <c>true</c> (default: the chip's own resistor to the other side) or <c>false</c>, with one on the board.
/// <c>closed</c>: what a closed contact means, <c>on</c> (default; for a level: full) or <c>off</c>.
/// </summary>
public sealed class ContactDriver : IProbeDriver
{
    private const int MostLines = 511;
    private const double Full = 100;

    private static readonly Dictionary<string, bool> Sides = new(StringComparer.Ordinal) { ["ground"] = false, ["supply"] = true };
    private static readonly Dictionary<string, bool> Meanings = new(StringComparer.Ordinal) { ["off"] = false, ["on"] = true };

    public string Word => "contact";

    public string BusKind => GpioBusKind.Name;

    public string? Notes => "contacts";

    public BenchAdvice Advice { get; } = new(
        "Is there a /dev/gpiochip of this number, is libgpiod installed, and is this user in the group that owns it?",
        "Bridge the two wires at the contact: the value must change. Look for another program on the line ('gpioinfo').");

    public FirstSettings Begin(Quantity measures, string place) => new(
        """{ "line": 17, "to": "ground", "closed": "on" }""",
        "The number of the line on its chip, not of the pin of the header; 'gpioinfo' lists them.");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        if (measures is not (Quantity.Heater or Quantity.HeaterCommand or Quantity.Level))
        {
            settings.Faults.Add(settings.Path, $"for the driver \"{Word}\" on a probe that measures \"{measures.Word()}\"", "a probe that measures \"heater\", \"heater-command\" or \"level\"");
        }

        var line = settings.Whole("line", 0, MostLines);
        var toSupply = settings.Choice("to", Sides, false);
        var mode = !settings.Flag("pull", true) ? PinMode.Input : toSupply ? PinMode.InputPullDown : PinMode.InputPullUp;
        var closedIsOn = settings.Choice("closed", Meanings, true);
        var contact = new ContactSettings(line, mode, toSupply == closedIsOn, measures == Quantity.Level ? Full : 1);
        return new(SampleUnit.Canonical(measures), (bus, _, probe, _) => new ContactProbe(probe, (BlockingBus<GpioLines>)bus, contact));
    }
}
