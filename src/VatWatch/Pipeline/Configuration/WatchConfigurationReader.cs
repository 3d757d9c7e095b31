using VatWatch.Alarms.Rules;
using VatWatch.Notifications.Peers;
using VatWatch.Probes;
using VatWatch.Store;
using VatWatch.Vats.Configuration;

namespace VatWatch.Pipeline.Configuration;

/// <summary>Reads the parts of the configuration that make the watch: site, display, time zone, data, store, buses, vats. Faults are filed, not thrown.</summary>
public sealed class WatchConfigurationReader(ProbeCatalog catalog)
{
    /// <summary>More buses or vats than this is a slip of the pen.</summary>
    private const int MaximumVats = 1000;

    /// <summary>Reads from the root of the file; the caller closes the root with <see cref="ConfigNode.Done"/>.</summary>
    public WatchConfiguration Read(ConfigNode root)
    {
        var site = root.Name("site");
        var units = root.Choice("display", DisplayUnits.All, DisplayUnits.Us);
        var zone = root.Faults.Zone = root.Zone("timeZone");
        var data = root.FilePath(root.OptionalText("data", "a folder", "data")!);
        var store = StoreOptions.Read(root.OptionalSection("store"));
        var watches = PeerOptions.Read(root);

        // A second watch that only listens for the first has no vats of its own.
        var buses = watches.Count > 0 && !root.Has("buses") ? [] : ReadBuses(root.Section("buses"));
        var vats = ReadVats(root, buses, listens: watches.Count > 0);
        var daemonAlarms = AlarmSettings.ReadDaemon(root.OptionalSection("alarms"));
        RefuseMixedSpeeds(root, buses);
        return new WatchConfiguration
        {
            Site = site,
            Units = units,
            Zone = zone,
            DataFolder = data,
            Store = store,
            Buses = buses,
            Vats = vats,
            DaemonAlarms = daemonAlarms,
            Watches = watches,
        };
    }

    private List<BusPlan> ReadBuses(ConfigNode node)
    {
        var buses = new List<BusPlan>();
        foreach (var key in node.Keys)
        {
            var bus = node.Section(key);
            if (!ConfigNode.IsName(key))
            {
                node.Faults.Add(node.PathOf(key), "not a name", ConfigNode.NameWanted);
            }

            var kind = bus.Choice("kind", catalog.BusKinds, null!, required: true);
            if (kind is not null)
            {
                buses.Add(kind.Read(new BusId(key), bus));
                bus.Done();
            }
        }

        if (buses.Count == 0 && !node.IsBroken && node.Keys.Count == 0)
        {
            node.Faults.Add(node.Path, "empty", "at least one bus");
        }

        return buses;
    }

    private List<VatPlan> ReadVats(ConfigNode root, List<BusPlan> buses, bool listens)
    {
        var nodes = root.Sections("vats", "a list of at least one vat", required: !listens);
        if (nodes.Count > MaximumVats)
        {
            root.Faults.Add("vats", $"{nodes.Count} vats", $"at most {MaximumVats}");
            return [];
        }

        var reader = new VatReader(catalog, buses);
        return [.. nodes.Select(reader.Read)];
    }

    private static void RefuseMixedSpeeds(ConfigNode root, List<BusPlan> buses)
    {
        var fastest = buses.MaxBy(bus => bus.Speed);
        var other = buses.Find(bus => fastest is not null && bus.Speed != fastest.Speed);
        if (fastest is { Speed: not 1 } && other is not null)
        {
            root.Faults.Add(
                $"buses.{fastest.Id}.speed",
                $"{fastest.Speed}",
                $"1, or no other bus that lives at another speed (buses.{other.Id} does): the whole watch runs on one clock");
        }
    }
}
