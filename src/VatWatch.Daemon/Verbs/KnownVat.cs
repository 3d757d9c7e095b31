using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Pipeline.Configuration;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary>A configured vat and its store, for verbs that tell of one vat. The daemon may be running.</summary>
internal sealed record KnownVat(VatDefinition Vat, string Folder, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up.</summary>
    /// <exception cref="VerbEndedException">There is none, or the configuration has faults.</exception>
    public static KnownVat Find(string wanted, string? path, string? data, VerbConsole console)
    {
        var configuration = console.Load(path);
        return new(PlanOf(configuration, wanted).Definition, data ?? configuration.Watch.DataFolder, configuration.Watch.Units, configuration.Watch.Zone);
    }

    /// <summary>The vat that <c>--vat</c> names, as configured.</summary>
    /// <exception cref="VerbEndedException">There is none.</exception>
    public static VatPlan PlanOf(DaemonConfiguration configuration, string? wanted) => configuration.Watch.Vats.FirstOrDefault(one => one.Definition.Id.Value == wanted)
        ?? throw new VerbEndedException(ExitCode.WrongUsage, $"{(wanted is null ? "--vat is missing" : $"--vat is '{wanted}'")}; wanted one of {string.Join(", ", configuration.Watch.Vats.Select(one => $"'{one.Definition.Id}'"))}.");

    /// <summary>Reads its store, null where there is none.</summary>
    public T Read<T>(Func<StoreReader?, T> read)
    {
        using var reader = StoreReader.Exists(Folder) ? StoreReader.OpenFolder(Folder) : null;
        return read(reader);
    }
}
