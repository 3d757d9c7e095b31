using System.CommandLine;
using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Pipeline.Configuration;
using VatWatch.Probes;
using VatWatch.Probes.Serial;
using VatWatch.Store.Disk;

namespace VatWatch.Daemon.Verbs;

/// <summary><c>vatwatch check</c>: validates a configuration and says every fault at once.</summary>
internal static class CheckVerb
{
    public static Command Create(VerbConsole console)
    {
        var config = CommonOptions.Config();
        var command = new Command("check", "Validate the configuration; exit 0, or 78 with one sentence per fault.") { config };
        command.SetAction(parsed => Run(parsed.GetValue(config), console));
        return command;
    }

    private static int Run(string? path, VerbConsole console)
    {
        var configuration = console.Load(path);
        var problems = configuration.Influx?.Problems().ToList() ?? [];
        problems.AddRange(new[] { StoreFolder.Fault(configuration.Watch.DataFolder), configuration.StoreLeftBehind() }.OfType<string>());

        foreach (var problem in problems)
        {
            console.Error.WriteLine($"{configuration.File}: {problem}.");
        }

        if (problems.Count > 0)
        {
            return ExitCode.BadConfiguration;
        }

        var watch = configuration.Watch;
        foreach (var remark in Remarks(watch))
        {
            console.Error.WriteLine($"{configuration.File}: {remark}.");
        }

        var probes = watch.Vats.Sum(vat => vat.Probes.Count);
        console.Out.WriteLine($"{configuration.File} is good: site {watch.Site}, {DisplayUnits.Count(watch.Vats.Count, "vat")}, {DisplayUnits.Count(probes, "probe")}, {DisplayUnits.Count(watch.Buses.Count, "bus", "buses")}, {DisplayUnits.Count(configuration.Contacts.Contacts.Count, "contact")}.");
        if (NotesOfConfiguration.Pages(watch.Vats.SelectMany(vat => vat.Definition.Probes)) is { Count: > 0 } pages)
        {
            console.Out.WriteLine($"Pages of the hardware notes that belong to it: {string.Join(", ", pages)}.");
        }

        return ExitCode.Success;
    }

    /// <summary>What is allowed and can yet mislead in the night.</summary>
    private static IEnumerable<string> Remarks(WatchConfiguration watch) =>
    [
        .. AnswerRemarks.Of(watch.Vats.SelectMany(vat => vat.Definition.Probes.Zip(vat.Probes))),
        .. watch.Buses.Select(bus => bus.Remark()).OfType<string>(),
        .. watch.Vats.SelectMany(vat => Unset(vat.Definition)),
    ];

    /// <summary>What a probe reads without limits of its own.</summary>
    private static IEnumerable<string> Unset(VatDefinition vat)
    {
        if (vat.Orp is { AreAssumed: true } orp)
        {
            yield return $"vat \"{vat.Id}\" reads ORP and has no \"orp\": it is judged against {orp.Reference}, weak above {orp.WeakMillivolts:0} mV, oxidised above {orp.OxidisedMillivolts:0} mV. Say there which reference electrode the probe has";
        }

        if (vat.Ph is null && vat.Probes.Any(probe => probe.Quantity == Quantity.Ph))
        {
            yield return $"vat \"{vat.Id}\" reads pH and has no \"ph\": without its band no alarm tells when the alkali runs short";
        }
    }
}

/// <summary>Which pages of the hardware notes are about what a configuration names.</summary>
internal static class NotesOfConfiguration
{
    /// <summary>Paths below <c>hardware-notes/</c>: of the drivers, then of what is measured; the heaters' first, which is everybody's.</summary>
    public static IReadOnlyList<string> Pages(IEnumerable<ProbeDefinition> probes)
    {
        var real = probes.Where(probe => Driver(probe).Notes is not null).ToList();
        return real.Count == 0
            ? []
            : [.. real.Select(probe => $"{Driver(probe).Notes}/README.md").Concat(real.Select(probe => About(probe.Quantity)).OfType<string>()).Prepend("heaters.md").Distinct()];
    }

    private static IProbeDriver Driver(ProbeDefinition probe) => Catalog.Everything.Drivers[probe.Driver];

    private static string? About(Quantity quantity) => quantity switch
    {
        Quantity.Ph or Quantity.Orp => "electrodes.md",
        Quantity.Heater or Quantity.HeaterCommand => "heater-power.md",
        Quantity.Level => "level.md",
        _ => null,
    };
}
