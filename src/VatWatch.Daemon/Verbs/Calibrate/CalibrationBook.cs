using Microsoft.Extensions.Logging.Abstractions;
using VatWatch.Calibration;
using VatWatch.Pipeline;
using VatWatch.Store;
using VatWatch.Store.Disk;

namespace VatWatch.Daemon.Verbs.Calibrate;

/// <summary>The calibrations of a data folder, to look up and to add to: its own store where no daemon runs, beside the daemon where one does.</summary>
internal sealed class CalibrationBook : IAsyncDisposable
{
    private readonly string _folder;
    private readonly WatchStore? _store;

    private CalibrationBook(string folder, WatchStore? store)
    {
        _folder = folder;
        _store = store;
    }

    /// <summary>What is kept already.</summary>
    public CalibrationCache Calibrations { get; } = new();

    /// <summary>Whether a daemon has the folder, and so the buses.</summary>
    public bool DaemonRuns => _store is null;

    /// <summary>Opens the folder; makes a store where there is none.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be read or written; a sentence.</exception>
    public static async Task<CalibrationBook> OpenAsync(string folder, StoreOptions options)
    {
        var book = new CalibrationBook(folder, TryOpen(folder, options));
        try
        {
            using var reader = StoreReader.OpenFolder(folder);
            StoredCalibrations.Fill(book.Calibrations, reader);
            return book;
        }
        catch
        {
            await book.DisposeAsync();
            throw;
        }
    }

    /// <summary>Adds one; it is on disk when this returns.</summary>
    /// <returns>Its row.</returns>
    /// <exception cref="StoreUnavailableException">It is not on disk; a sentence.</exception>
    public Task<long> AddAsync(ProbeId probe, DateTimeOffset utc, ElectrodeCalibration calibration, CancellationToken cancel)
    {
        long Append(StoreTransaction transaction) => CalibrationTable.Append(transaction, probe, utc, CalibrationDocument.Write(calibration));
        return _store is null ? Task.Run(() => StoreBeside.Write(_folder, Append), cancel) : _store.WriteAsync(Append, cancel);
    }

    public ValueTask DisposeAsync() => _store?.DisposeAsync() ?? ValueTask.CompletedTask;

    private static WatchStore? TryOpen(string folder, StoreOptions options)
    {
        try
        {
            return WatchStore.Open(folder, options, TimeProvider.System, NullLogger<WatchStore>.Instance);
        }
        catch (StoreInUseException)
        {
            return null;
        }
    }
}
