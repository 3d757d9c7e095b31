using VatWatch.Daemon.Verbs.Terminal;
using VatWatch.Daemon.Wiring;
using VatWatch.Store;

namespace VatWatch.Daemon.Verbs;

/// <summary>A configured vat and its store, for verbs that tell of one vat. The daemon may be running.</summary>
internal sealed record KnownVat(VatDefinition Vat, string Folder, DisplayUnits Units, TimeZoneInfo Zone)
{
    /// <summary>Looks it up; null, and said so, when there is none.</summary>
    public static KnownVat? Find(string wanted, string? path, string? data, VerbConsole console, out int code)
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

        return new(vat, data ?? configuration.Watch.DataFolder, configuration.Watch.Units, configuration.Watch.Zone);
    }

    /// <summary>Reads its store, null where there is none; null with the exit code, and said so, when it cannot be read.</summary>
    public T? Read<T>(Func<StoreReader?, T> read, VerbConsole console, out int code)
        where T : class
    {
        code = ExitCode.Success;
        try
        {
            using var reader = StoreReader.Exists(Folder) ? StoreReader.OpenFolder(Folder) : null;
            return read(reader);
        }
        catch (StoreUnavailableException e)
        {
            code = console.Fail(ExitCode.Failure, e.Message);
            return null;
        }
    }
}
