using VatWatch.Alarms.Rules;
using VatWatch.Notifications.Peers;
using VatWatch.Probes;
using VatWatch.Store;

namespace VatWatch.Pipeline.Configuration;

/// <summary>A validated configuration of the watch itself, without the surfaces that the daemon adds (web, MQTT, servers).</summary>
public sealed record WatchConfiguration
{
    /// <summary>Name of the place, first part of every topic.</summary>
    public required string Site { get; init; }

    /// <summary>The dyer's units.</summary>
    public required DisplayUnits Units { get; init; }

    /// <summary>Time zone of the site: that of pages, messages, charts and the terminal.</summary>
    public TimeZoneInfo Zone { get; init; } = TimeZoneInfo.Local;

    /// <summary>Folder of the store, from the folder of the configuration file unless it is a full path.</summary>
    public required string DataFolder { get; init; }

    /// <summary>Settings of the store.</summary>
    public required StoreOptions Store { get; init; }

    /// <summary>Buses, in the order of the file.</summary>
    public required IReadOnlyList<BusPlan> Buses { get; init; }

    /// <summary>Vats, in the order of the file.</summary>
    public required IReadOnlyList<VatPlan> Vats { get; init; }

    /// <summary>Settings of the alarms about the daemon itself.</summary>
    public required AlarmSettings DaemonAlarms { get; init; }

    /// <summary>Other watches that this one listens for.</summary>
    public IReadOnlyList<PeerOptions> Watches { get; init; } = [];

    /// <summary>How much faster than the wall clock the vats live: 1 unless every bus is one simulation.</summary>
    public double Speed => Buses.Count == 0 ? 1 : Buses.Max(bus => bus.Speed);
}
