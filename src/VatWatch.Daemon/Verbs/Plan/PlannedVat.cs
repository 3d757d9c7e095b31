using VatWatch.Daemon.Wiring;
using VatWatch.Plans;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs.Plan;

/// <summary>The vat a plan is for, and what the store tells of it; without a store it is a vat of which nothing is known.</summary>
internal sealed record PlannedVat(VatDefinition Vat, StoredVat Known, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static PlannedVat? Find(string wanted, string? path, string? data, TimeProvider time, VerbConsole console, out int code)
    {
        code = ExitCode.BadConfiguration;
        if (DaemonConfiguration.Load(path, console.Error) is not { } configuration)
        {
            return null;
        }

        if (configuration.Watch.Vats.FirstOrDefault(one => one.Definition.Id.Value == wanted)?.Definition is not { } vat)
        {
            var known = string.Join(", ", configuration.Watch.Vats.Select(one => $"'{one.Definition.Id}'"));
            code = console.Fail(ExitCode.WrongUsage, $"--vat is '{wanted}'; wanted one of {known}.");
            return null;
        }

        var folder = data ?? configuration.Watch.DataFolder;
        try
        {
            return new(vat, Read(folder, vat, time.GetUtcNow()), configuration.Watch.Units, configuration.Watch.Zone);
        }
        catch (StoreUnavailableException e)
        {
            code = console.Fail(ExitCode.Failure, e.Message);
            return null;
        }
    }

    private static StoredVat Read(string folder, VatDefinition vat, DateTimeOffset now)
    {
        if (!StoreReader.Exists(folder))
        {
            return StoredVat.Unknown;
        }

        using var reader = StoreReader.OpenFolder(folder);
        return StoredVat.Read(reader, vat, now);
    }
}
