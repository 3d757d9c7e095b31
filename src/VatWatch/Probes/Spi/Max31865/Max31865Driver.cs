using VatWatch.Probes.Blocking;
using VatWatch.Science.Thermometry;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Spi.Max31865;

/// <summary>
/// The driver <c>max31865</c>, on a bus of kind <c>spi</c>: a platinum thermometer. <c>element</c>: <c>pt100</c> (default) or <c>pt1000</c>.
/// <c>wires</c>: 2, 3 or 4, as the board is bridged. <c>reference</c>: the board's reference resistor, such as "430 Ω" (the default for a Pt100;
/// "4300 Ω" for a Pt1000). <c>leads</c>: with two wires, what both have together, such as "0.6 Ω" (default none). <c>mains</c>: <c>60 Hz</c>
/// (default) or <c>50 Hz</c>, the hum that is filtered out.
/// </summary>
public sealed class Max31865Driver : IProbeDriver
{
    private const double ReferenceToElement = 4.3;
    private const int LeadsCount = 2;
    private const double LargestLeadsOhm = 50;

    private static readonly Dictionary<string, double> Elements = new(StringComparer.Ordinal)
    {
        ["pt100"] = PlatinumResistance.Pt100Ohm,
        ["pt1000"] = PlatinumResistance.Pt1000Ohm,
    };

    private static readonly Dictionary<string, int> Mains = new(StringComparer.Ordinal)
    {
        ["60 Hz"] = 60,
        ["50 Hz"] = 50,
    };

    public string Word => "max31865";

    public string BusKind => SpiBusKind.Name;

    public string? Notes => "platinum-max31865";

    public BenchAdvice Advice { get; } = new(
        "Is SPI switched on, and is chip select the one wired?",
        "Check the element's wires against \"wires\", and the reference resistor against \"reference\".");

    public FirstSettings Begin(Quantity measures, string place) => new(
        """{ "element": "pt100", "wires": 3, "reference": "430 Ω", "mains": "60 Hz" }""",
        "A platinum element: pt100 or pt1000, its wires, the reference resistor printed on the board, and your mains.");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        Thermometers.RefuseOthers(settings, measures, Word);
        var element = settings.Choice("element", Elements, PlatinumResistance.Pt100Ohm);
        var wires = settings.Whole("wires", 2, 4);
        var reference = settings.Quantity("reference", QuantityKind.Resistance, 100, 10_000, ReferenceToElement * element);
        var leads = settings.Quantity("leads", QuantityKind.Resistance, 0, LargestLeadsOhm, 0);
        if (leads > 0 && wires > LeadsCount)
        {
            settings.Faults.Add(settings.PathOf("leads"), $"set for {wires} wires", "no such key: with three or four wires the leads are taken out already");
        }

        var chip = new Max31865Settings(element, wires, reference, leads, settings.Choice("mains", Mains, 60));
        return new(SampleUnit.Canonical(measures), (bus, _, probe, _) =>
            new ChipProbe<GuardedSpiDevice>(probe, "MAX31865", new SpiSeat((BlockingBus<GuardedSpiDevice>)bus), device => new Max31865Chip(device, chip)));
    }
}

/// <summary>How an MAX31865 is read.</summary>
/// <param name="ElementOhm">Resistance of the element at 0 °C: 100 or 1000 Ω.</param>
/// <param name="Wires">Wires between element and board, 2 to 4; the board's bridges must agree.</param>
/// <param name="ReferenceOhm">The board's reference resistor.</param>
/// <param name="LeadsOhm">What both wires have together and the chip does not take out, Ω: with two wires alone.</param>
/// <param name="MainsHertz">Mains frequency that is filtered out: 50 or 60.</param>
internal sealed record Max31865Settings(double ElementOhm, int Wires, double ReferenceOhm, double LeadsOhm, int MainsHertz);
