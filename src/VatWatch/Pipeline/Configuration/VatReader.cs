using VatWatch.Alarms.Rules;
using VatWatch.Calibration;
using VatWatch.Probes;
using VatWatch.Science.Heat;
using VatWatch.Vats.Configuration;

namespace VatWatch.Pipeline.Configuration;

/// <summary>Reads one vat with its probes. Remembers the names already used in the file. Not thread safe.</summary>
internal sealed class VatReader(ProbeCatalog catalog, List<BusPlan> buses)
{
    private const double BoilingC = 105;
    private const double LargestOffsetC = 10;

    private readonly HashSet<string> _vatNames = [];
    private readonly HashSet<string> _probeNames = [];

    public VatPlan Read(ConfigNode node)
    {
        var id = new VatId(Unique(node, "id", _vatNames));
        if (id == VatId.Daemon)
        {
            node.Faults.Add(node.PathOf("id"), "\"daemon\"", "another name: alarms about the daemon itself are filed under this one");
        }

        var name = node.Title("name", id.Value);
        var volume = node.Quantity("volume", QuantityKind.Volume, 1, 10_000);
        var fibre = node.Choice("fibre", EnumWord.All<Fibre>(), Fibre.Protein, required: true);
        var reducer = node.Choice("reducer", EnumWord.All<ReducingAgent>(), ReducingAgent.ThioureaDioxide, required: true);
        var temperature = ReadTemperature(node.Section("temperature"));
        var ph = node.OptionalSection("ph") is { } phNode ? ReadPh(phNode) : null;
        var orpNode = node.OptionalSection("orp");
        double? heater = node.Has("heater") ? node.Quantity("heater", QuantityKind.Power, 1, 100_000) : null;
        double? carryOver = node.Has("carryOver") ? node.Quantity("carryOver", QuantityKind.CarryOver, 0.1, 5) : null;
        var altitude = node.Quantity("altitude", QuantityKind.Length, -430, 5500, 0);
        var alarms = AlarmSettings.Read(node.OptionalSection("alarms")) with { Zone = node.Faults.Zone };
        var probes = node.Sections("probes", "a list of at least one probe", required: true).Select(probe => ReadProbe(probe, id)).ToList();
        if (heater is null && probes.Find(probe => probe.Definition.Unit.IsPower)?.Definition is { } meter)
        {
            node.Faults.Add(node.PathOf("heater"), $"missing, and probe \"{meter.Id}\" gives {meter.Unit.Text}", "the rated power of the heater, such as \"1500 W\", of which a meter's watts are a share");
        }

        var orp = orpNode is not null ? ReadOrp(orpNode, reducer, ph, temperature)
            : probes.Exists(probe => probe.Definition.Quantity == Quantity.Orp) ? OrpLimits.Usual(reducer, ph, temperature)
            : null;
        node.Done();

        var definition = new VatDefinition
        {
            Id = id,
            Name = name,
            VolumeLitres = volume,
            Fibre = fibre,
            Reducer = reducer,
            Temperature = temperature,
            Ph = ph,
            Orp = orp,
            HeaterWatts = heater,
            CarryOverLitresPerKg = carryOver,
            BoilingC = SaturationPressure.BoilingAtAltitudeC(double.Clamp(altitude, -430, 5500)),
            Probes = [.. probes.Select(probe => probe.Definition)],
        };
        var calibrations = new Dictionary<ProbeId, CalibrationLimits>();
        foreach (var probe in probes.Where(probe => probe.Limits is not null))
        {
            calibrations.TryAdd(probe.Definition.Id, probe.Limits!);
        }

        return new VatPlan(definition, [.. probes.Select(probe => probe.Plan!)], alarms) { Calibrations = calibrations };
    }

    private static TemperatureBand ReadTemperature(ConfigNode node)
    {
        var low = node.Quantity("low", QuantityKind.Temperature, 0, BoilingC);
        var high = node.Quantity("high", QuantityKind.Temperature, 0, BoilingC);
        var limit = node.Quantity("limit", QuantityKind.Temperature, 0, BoilingC);
        node.Done();
        InOrder(node, "high", high > low, "above temperature.low");
        InOrder(node, "limit", limit >= high, "at or above temperature.high");
        return new TemperatureBand(low, high, limit);
    }

    private static PhBand ReadPh(ConfigNode node)
    {
        var band = new PhBand(node.Number("low", 0, 14), node.Number("high", 0, 14));
        node.Done();
        InOrder(node, "high", band.High > band.Low, "above ph.low");
        return band;
    }

    private static OrpLimits ReadOrp(ConfigNode node, ReducingAgent reducer, PhBand? ph, TemperatureBand temperature)
    {
        double? Mark(string key) => node.Has(key) ? node.Quantity(key, QuantityKind.Potential, -1500, 1000) : null;

        var (weak, oxidised) = (Mark("weak"), Mark("oxidised"));
        var reference = node.Text("reference", "the reference electrode, such as \"Ag/AgCl 3 M KCl\"");
        var rising = node.Quantity("rising", QuantityKind.PotentialRate, 1, 1000, OrpLimits.UsualRisingMillivoltsPerHour);
        node.Done();
        var usual = OrpLimits.UsualMarks(reducer, ph, temperature, reference);
        var apart = usual.OxidisedMillivolts - usual.WeakMillivolts;
        var limits = new OrpLimits(weak ?? oxidised - apart ?? usual.WeakMillivolts, oxidised ?? weak + apart ?? usual.OxidisedMillivolts, reference, rising);
        InOrder(node, "oxidised", limits.OxidisedMillivolts > limits.WeakMillivolts, "above orp.weak");
        return limits;
    }

    private DefinedProbe ReadProbe(ConfigNode node, VatId vat)
    {
        var id = new ProbeId(Unique(node, "id", _probeNames));
        var measures = node.Choice("measures", EnumWord.All<Quantity>(), Quantity.Temperature, required: true);
        var bus = new BusId(node.Text("bus", BusWanted()));
        var driver = node.Choice("driver", catalog.Drivers, null!, required: true);
        var every = node.Duration("every", TimeSpan.FromMilliseconds(100), TimeSpan.FromHours(1), TimeSpan.FromSeconds(5));
        var offset = ReadOffset(node, measures);
        var settings = node.OptionalSection("settings") ?? new ConfigNode(EmptyObject, node.PathOf("settings"), node.Faults);
        var limits = node.OptionalSection("calibration") is { } section ? CalibrationLimits.Read(section, measures) : null;
        node.Done();

        var plan = buses.Find(known => known.Id == bus);
        if (bus.Value.Length > 0 && plan is null)
        {
            node.Faults.Add(node.PathOf("bus"), ConfigNode.Quote(bus.Value), BusWanted());
        }
        else if (driver is not null && plan is not null && plan.Kind != driver.BusKind)
        {
            node.Faults.Add(node.PathOf("driver"), $"\"{driver.Word}\" on a bus of kind \"{plan.Kind}\"", $"a bus of kind \"{driver.BusKind}\" or another driver");
        }

        var probePlan = driver?.Read(settings, measures, every);
        settings.Done();
        var unit = probePlan?.Unit ?? SampleUnit.Canonical(measures);
        var definition = new ProbeDefinition(id, vat, measures, bus, driver?.Word ?? "", every, unit) { OffsetC = offset };
        if (limits is not null && probePlan is not null && !Calibrator.CanCalibrate(definition))
        {
            node.Faults.Add(
                node.PathOf("calibration"),
                $"limits for {measures.Word()} in \"{unit.Text}\"",
                $"no such key here, or a probe of ORP, or one of pH in \"{SampleUnit.ElectrodeText}\"");
        }

        return new(definition, probePlan, limits);
    }

    /// <summary>The correction of a thermometer, °C; anything else is calibrated, or scaled by its driver.</summary>
    private static double ReadOffset(ConfigNode node, Quantity measures)
    {
        if (!node.Has("offset") || measures is Quantity.Temperature or Quantity.Ambient)
        {
            return node.Quantity("offset", QuantityKind.TemperatureDifference, -LargestOffsetC, LargestOffsetC, 0);
        }

        node.Faults.Add(node.PathOf("offset"), $"set on a probe that measures {measures.Word()}", "no such key here, or a probe that measures temperature or ambient");
        return 0;
    }

    private string BusWanted() => buses.Count == 0
        ? "the name of a bus under \"buses\""
        : $"one of the buses {string.Join(", ", buses.Select(bus => $"\"{bus.Id}\""))}";

    private static string Unique(ConfigNode node, string key, HashSet<string> used)
    {
        var name = node.Name(key);
        if (name.Length > 0 && !used.Add(name))
        {
            node.Faults.Add(node.PathOf(key), $"\"{name}\" for a second time", "a name used once in the file");
        }

        return name;
    }

    private static void InOrder(ConfigNode node, string key, bool holds, string wanted)
    {
        if (!holds && !node.IsBroken && !node.Faults.All.Any(fault => fault.Path.StartsWith(node.Path, StringComparison.Ordinal)))
        {
            node.Faults.Add(node.PathOf(key), node.Shown(key), wanted);
        }
    }

    private static readonly System.Text.Json.JsonElement EmptyObject = System.Text.Json.JsonDocument.Parse("{}").RootElement.Clone();

    private sealed record DefinedProbe(ProbeDefinition Definition, ProbePlan? Plan, CalibrationLimits? Limits);
}
