using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Pipeline.Configuration;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary>A configured vat and its store, for verbs that tell of one vat. The daemon may be running.</summary>
internal sealed record KnownVat(VatDefinition Vat, string Folder, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up.</summary>
    /// <exception cref="VerbEndedException">There is none.</exception>
    public static KnownVat Find(string wanted, ConfiguredStore store) => new(PlanOf(store.Watch, wanted).Definition, store.Folder, store.Watch.Units, store.Watch.Zone);

    /// <summary>The vat that <c>--vat</c> names, as configured.</summary>
    /// <exception cref="VerbEndedException">There is none.</exception>
    public static VatPlan PlanOf(WatchConfiguration watch, string? wanted) => watch.Vats.FirstOrDefault(one => one.Definition.Id.Value == wanted)
        ?? throw new VerbEndedException(ExitCode.WrongUsage, $"{(wanted is null ? "--vat is missing" : $"--vat is '{wanted}'")}; wanted one of {string.Join(", ", watch.Vats.Select(one => $"'{one.Definition.Id}'"))}.");

    /// <summary>Reads its store, null where there is none.</summary>
    public T Read<T>(Func<StoreReader?, T> read)
    {
        using var reader = StoreReader.Exists(Folder) ? StoreReader.OpenFolder(Folder) : null;
        return read(reader);
    }
}
