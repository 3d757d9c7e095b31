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
        };
        node.Done();
        return options;
    }

    private static readonly TimeSpan OneSecond = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan OneMinute = TimeSpan.FromMinutes(1);
}
