using Iot.Device.Max31865;
using VatWatch.Probes.Blocking;
using VatWatch.Vats.Configuration;

namespace VatWatch.Probes.Spi.Max31865;

/// <summary>
/// The driver <c>max31865</c>, on a bus of kind <c>spi</c>: a platinum thermometer. <c>element</c>: <c>pt100</c> (default) or <c>pt1000</c>.
/// <c>wires</c>: 2, 3 or 4, as the board is bridged. <c>reference</c>: the board's reference resistor, such as "430 Ω" (the default for a Pt100;
/// "4300 Ω" for a Pt1000). <c>mains</c>: <c>60 Hz</c> (default) or <c>50 Hz</c>, the hum that is filtered out.
/// </summary>
public sealed class Max31865Driver : IProbeDriver
{
    private const double ReferenceToElement = 4.3;

    private static readonly Dictionary<string, PlatinumResistanceThermometerType> Elements = new(StringComparer.Ordinal)
    {
        ["pt100"] = PlatinumResistanceThermometerType.Pt100,
        ["pt1000"] = PlatinumResistanceThermometerType.Pt1000,
    };

    private static readonly Dictionary<string, ConversionFilterMode> Filters = new(StringComparer.Ordinal)
    {
        ["60 Hz"] = ConversionFilterMode.Filter60Hz,
        ["50 Hz"] = ConversionFilterMode.Filter50Hz,
    };

    public string Word => "max31865";

    public string BusKind => SpiBusKind.Name;

    public BenchAdvice Advice { get; } = new(
        "Is SPI switched on, and is chip select the one wired?",
        "Check the element's wires against \"wires\", and the reference resistor against \"reference\".");

    public FirstSettings Begin(Quantity measures, string place) => new(
        """{ "element": "pt100", "wires": 3, "reference": "430 Ω", "mains": "60 Hz" }""",
        "A platinum element: pt100 or pt1000, its wires, the reference resistor printed on the board, and your mains.");

    public ProbePlan Read(ConfigNode settings, Quantity measures, TimeSpan every)
    {
        Thermometers.RefuseOthers(settings, measures, Word);
        var element = settings.Choice("element", Elements, PlatinumResistanceThermometerType.Pt100);
        var wires = (ResistanceTemperatureDetectorWires)settings.Whole("wires", 2, 4);
        var reference = settings.Quantity("reference", QuantityKind.Resistance, 100, 10_000, ReferenceToElement * (int)element);
        var chip = new Max31865Settings(element, wires, reference, settings.Choice("mains", Filters, ConversionFilterMode.Filter60Hz));
        return new(SampleUnit.Canonical(measures), (bus, _, probe, _) =>
            new ChipProbe<GuardedSpiDevice>(probe, "MAX31865", (SpiProbeBus)bus, device => new Max31865Chip(device, chip)));
    }
}
