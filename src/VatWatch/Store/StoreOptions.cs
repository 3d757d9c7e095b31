using VatWatch.Store.Series;
using VatWatch.Vats.Configuration;

namespace VatWatch.Store;

/// <summary>How the store keeps readings: the optional top-level section <c>store</c> of the configuration.</summary>
public sealed record StoreOptions
{
    /// <summary>How long readings may wait for their commit, and so what a power cut may cost. Default 10 s, 1 s to 60 s.</summary>
    public TimeSpan CommitInterval { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>
    /// Readings held in memory while the disk does not take them; past this the oldest is dropped and counted. Default 100,000, which is
    /// an hour of 27 probes read once a second (about 15 MB); 10,000 to 1,000,000.
    /// </summary>
    public int BufferedMeasurements { get; init; } = 100_000;

    /// <summary>How long <see cref="WatchStore.WriteAsync{T}"/> waits for the disk before it gives up. Default 10 s, 1 s to 60 s.</summary>
    public TimeSpan WriteTimeout { get; init; } = TimeSpan.FromSeconds(10);

    /// <summary>
    /// How long readings are kept; minute rollups and the alarm journal are kept five times as
    /// long, quarter-hour rollups and calibrations always. Default 1826 days (five years); 7 days to 20 years.
    /// </summary>
    public TimeSpan KeepReadings { get; init; } = TimeSpan.FromDays(1826);

    /// <summary>
    /// Size of the database in MB (10^6 bytes) past which the oldest readings go before their time, but never those of the last 7 days. Default 4000, about 400 days of 20 probes read every 5 s; 10 to 1,000,000.
    /// </summary>
    public int SizeLimitMegabytes { get; init; } = 4000;

    /// <summary>Reads the section; absent keys and an absent section give the defaults.</summary>
    public static StoreOptions Read(ConfigNode? node)
    {
        var defaults = new StoreOptions();
        if (node is null)
        {
            return defaults;
        }

        var options = new StoreOptions
        {
            CommitInterval = node.Duration("commitInterval", OneSecond, OneMinute, defaults.CommitInterval),
            BufferedMeasurements = node.Whole("bufferedMeasurements", 10_000, 1_000_000, defaults.BufferedMeasurements),
            WriteTimeout = node.Duration("writeTimeout", OneSecond, OneMinute, defaults.WriteTimeout),
            KeepReadings = node.Duration("keepReadings", Retention.AlwaysKept, TwentyYears, defaults.KeepReadings),
            SizeLimitMegabytes = node.Whole("sizeLimitMegabytes", 10, 1_000_000, defaults.SizeLimitMegabytes),
        };
        node.Removed("archiveAfter", "keepReadings alone: readings stay in the database that long");
        node.Done();
        return options;
    }

    private static readonly TimeSpan OneSecond = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan TwentyYears = TimeSpan.FromDays(7305);
    private static readonly TimeSpan OneMinute = TimeSpan.FromMinutes(1);
}
