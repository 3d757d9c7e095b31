using VatWatch.Daemon.Web;
using VatWatch.Influx;
using VatWatch.Notifications;
using VatWatch.Notifications.Contacts;
using VatWatch.Notifications.Mqtt;
using VatWatch.Pipeline.Configuration;
using VatWatch.Vats.Configuration;

namespace VatWatch.Daemon.Wiring;

/// <summary>The whole validated configuration: the watch and the surfaces around it.</summary>
/// <param name="Watch">Site, vats, probes, store.</param>
/// <param name="Mqtt">Broker and credentials.</param>
/// <param name="Contacts">Who is told of alarms, and how.</param>
/// <param name="Web">Address of the pages.</param>
/// <param name="Influx">Server that gets a copy of the store; null for none.</param>
internal sealed record DaemonConfiguration(string File, WatchConfiguration Watch, MqttOptions Mqtt, ContactTable Contacts, WebOptions Web, InfluxOptions? Influx)
{
    /// <summary>Every setting with where it came from.</summary>
    public IReadOnlyList<ConfigSetting> Settings { get; init; } = [];

    /// <summary>Where the Debian package has it.</summary>
    public const string InstalledFile = "/etc/vatwatch/vatwatch.json";

    private const string DefaultFile = "config/vatwatch.json";

    /// <summary>Loads <paramref name="path"/> (or the default file); on faults writes one sentence each to <paramref name="errors"/> and gives null.</summary>
    public static DaemonConfiguration? Load(string? path, TextWriter errors)
    {
        var file = path ?? FindDefault();
        var faults = new ConfigFaults();
        var configuration = Read(file, faults);
        foreach (var fault in faults.All)
        {
            errors.WriteLine($"{file}: {fault}");
        }

        return faults.All.Count == 0 ? configuration : null;
    }

    public static DaemonConfiguration? Read(string file, ConfigFaults faults) => ConfigFile.Open(file, faults) is { } root ? Read(root, file) : null;

    /// <summary>Reads from the root of a file; faults are filed.</summary>
    /// <param name="file">Its name.</param>
    public static DaemonConfiguration Read(ConfigNode root, string file)
    {
        if (root.Has("$schema"))
        {
            root.Text("$schema", "where the schema is, for an editor; the daemon has no use for it");
        }

        var watch = new WatchConfigurationReader(Catalog.Everything).Read(root);
        var mqtt = root.OptionalSection("mqtt") is { } node ? MqttOptions.Read(node) : MqttOptions.Default;
        var contacts = ContactTable.Read(root, watch.Units);
        var web = WebOptions.Read(root.OptionalSection("web"), root.Faults.Folder);
        contacts = contacts with { Pages = new AlarmPages(web.PagesRoot) };
        var influx = root.OptionalSection("influx") is { } server ? InfluxOptions.Read(server) : null;
        root.Done();
        return new DaemonConfiguration(file, watch, mqtt, contacts, web, influx) { Settings = root.Faults.Ledger.All };
    }

    /// <summary>Why a new store would be begun although there is one: earlier versions counted <c>data</c> from the current folder. Null when nothing lies there.</summary>
    public string? StoreLeftBehind()
    {
        var (wanted, beside) = (Path.GetFullPath(Watch.DataFolder), Path.GetDirectoryName(Path.GetFullPath(File))!);
        var former = Path.GetFullPath(Path.GetRelativePath(beside, wanted));
        return former != wanted && wanted.StartsWith(beside, StringComparison.Ordinal) && HoldsStore(former) && !HoldsStore(wanted)
            ? $"Store in '{wanted}': there is none, but one in '{former}', where earlier versions kept it; wanted it beside the configuration: move it there, or start with --data {former}"
            : null;
    }

    private static bool HoldsStore(string folder) => System.IO.File.Exists(Path.Combine(folder, "vatwatch.db"));

    /// <summary>The file in the current folder, else that of an installed package, else the copy that lies beside the program.</summary>
    private static string FindDefault() =>
        new[] { DefaultFile, InstalledFile, Path.Combine(AppContext.BaseDirectory, DefaultFile) }.FirstOrDefault(System.IO.File.Exists) ?? DefaultFile;
}
