using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using VatWatch.Measurements;
using VatWatch.Store;

namespace VatWatch.Tests.Store;

/// <summary>A store in a folder of its own, with its writer running; everything is removed at the end. Readings are made short.</summary>
internal sealed class StoreRig : IAsyncDisposable
{
    private readonly CancellationTokenSource _stop = new();
    private readonly bool _ownsFolder;
    private Task _running;

    private StoreRig(string folder, bool ownsFolder, StoreOptions options, TimeProvider io)
    {
        Folder = folder;
        _ownsFolder = ownsFolder;
        Store = WatchStore.Open(folder, options, io, Log);
        _running = Store.RunAsync(_stop.Token);
    }

    /// <summary>A night of our own in a place of our own.</summary>
    public static DateTimeOffset Dusk { get; } = new(2031, 3, 14, 18, 0, 0, TimeSpan.Zero);

    /// <summary>Labels of tests lie millennia apart.</summary>
    private static StoreOptions KeepEverything { get; } = new() { KeepReadings = TimeSpan.FromDays(2_000_000) };

    public static VatId Madder { get; } = new("madder-lane");

    public static VatId Weld { get; } = new("weld-yard");

    public string Folder { get; }

    public WatchStore Store { get; }

    public RecordingLogger Log { get; } = new();

    public static StoreRig Start(StoreOptions? options = null, TimeProvider? io = null, string? folder = null) =>
        new(folder ?? NewFolder(), folder is null, options ?? KeepEverything, io ?? TimeProvider.System);

    public static string NewFolder() => Directory.CreateTempSubdirectory("store-test-").FullName;

    /// <summary>A good reading some seconds after dusk.</summary>
    public static Measurement Reading(
        double seconds, double? value = 43.62, string probe = "liquor", VatId? vat = null, Quantity measures = Quantity.Temperature, double? monotonicSeconds = null) => new(
            vat ?? Madder,
            new ProbeId(probe),
            measures,
            new Stamp(Dusk.AddSeconds(seconds), TimeSpan.FromSeconds(monotonicSeconds ?? seconds), true),
            value,
            value,
            value is null ? Quality.Missing : Quality.Good,
            value is null ? "no reply within 500 ms" : null,
            null);

    /// <summary>Everything in the store, in its order.</summary>
    public List<Measurement> All()
    {
        using var reader = Store.OpenReader();
        return [.. reader.Rows(DateTimeOffset.MinValue, DateTimeOffset.MaxValue).Select(row => row.Measurement)];
    }

    public async Task OfferAsync(params IEnumerable<Measurement> measurements)
    {
        foreach (var measurement in measurements)
        {
            Store.Enqueue(measurement);
        }

        await Store.FlushAsync(TestContext.Current.CancellationToken);
    }

    public T Read<T>(Func<StoreReader, T> read)
    {
        using var reader = Store.OpenReader();
        return read(reader);
    }

    public Task<T> WriteAsync<T>(Func<StoreTransaction, T> work) => Store.WriteAsync(work, TestContext.Current.CancellationToken);

    /// <summary>Runs SQL on the writer's own connection.</summary>
    public Task<int> SqlAsync(string sql) => WriteAsync(transaction => transaction.Sql.Execute(sql));

    /// <summary>Stops the writer and closes the store; harmless when that has been done.</summary>
    public async Task StopAsync()
    {
        await _stop.CancelAsync();
        await _running.WaitAsync(TimeSpan.FromSeconds(20));
        _running = Task.CompletedTask;
        await Store.DisposeAsync();
    }

    /// <summary>Looks again and again until it holds; fails after 15 s. <paramref name="meanwhile"/> moves a test's clock on.</summary>
    public static async Task EventuallyAsync(Func<bool> holds, Action? meanwhile = null)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(15));
        while (!holds())
        {
            Assert.False(patience.IsCancellationRequested, "did not come true within 15 s");
            meanwhile?.Invoke();
            await Task.Delay(5);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await StopAsync();
        _stop.Dispose();
        if (_ownsFolder)
        {
            Directory.Delete(Folder, recursive: true);
        }
    }

    /// <summary>Keeps what was logged.</summary>
    internal sealed class RecordingLogger : ILogger<WatchStore>
    {
        public ConcurrentQueue<(LogLevel Level, string Sentence)> Lines { get; } = new();

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            Lines.Enqueue((logLevel, formatter(state, exception)));
    }
}
