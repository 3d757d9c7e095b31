using Microsoft.Extensions.Logging;
using VatWatch.Measurements;
using VatWatch.Store.Disk;
using VatWatch.Store.Schema;
using VatWatch.Store.Writing;

namespace VatWatch.Store;

/// <summary>
/// The store of one data folder. Readings are buffered and committed together every interval; what a person or an alarm did is committed
/// at once and confirmed only when it is on disk. Thread safe; one process per folder, one <see cref="RunAsync"/> at a time.
/// </summary>
/// <remarks>
/// While the disk does not take anything (full, read-only, locked, away) readings stay in memory up to a bound, urgent writes are refused at
/// once, and the writer tries again with growing pauses until it succeeds. Format: FORMAT.md.
/// </remarks>
public sealed class WatchStore : IAsyncDisposable
{
    private readonly StoreFile _file;
    private readonly StoreOptions _options;
    private readonly TimeProvider _io;
    private readonly ILogger<WatchStore> _log;
    private readonly StoreWriter _writer;
    private readonly StoreCommitter _committer;
    private readonly AsyncAutoResetEvent _changed = new();
    private readonly SemaphoreSlim _writing = new(1, 1);
    private int _closed;

    private WatchStore(StoreFile file, StoreWriter writer, StoreOptions options, TimeProvider io, ILogger<WatchStore> log)
    {
        _file = file;
        _options = options;
        _io = io;
        _log = log;
        _writer = writer;
        _committer = new(file, writer, options, io, log);
    }

    /// <summary>Row of this start of the daemon; see <see cref="StoredMeasurement.Run"/>.</summary>
    public long Run => _writer.Run;

    /// <summary>How the store is doing now.</summary>
    public StoreHealth Health => _committer.Health;

    /// <summary>
    /// Opens or creates <c>vatwatch.db</c> in <paramref name="folder"/>, takes the folder for this process and brings the schema up to date.
    /// A damaged database is set aside with the date in its name and a new one is begun; <see cref="Health"/> says so.
    /// </summary>
    /// <param name="folder">The data folder; made when it is not there.</param>
    /// <param name="options">How readings are kept.</param>
    /// <param name="io">The clock of the disk: commit intervals and pauses. Not the vat's clock, which may be a fast simulation.</param>
    /// <param name="log">Where state changes are logged.</param>
    /// <param name="mayWait">
    /// Whether a full, read-only or failing disk is no reason to throw: the store then begins as after a failed commit, keeps readings in memory and takes the
    /// folder up when the disk takes it. What stands on the disk can be read meanwhile.
    /// </param>
    /// <exception cref="StoreInUseException">Another process has the folder.</exception>
    /// <exception cref="StoreUnavailableException">Disk, permissions, not a database, another program's, of a newer schema, or <see cref="StoreFolder.Fault"/>.</exception>
    public static WatchStore Open(string folder, StoreOptions options, TimeProvider io, ILogger<WatchStore> log, bool mayWait = false)
    {
        if (StoreFolder.Fault(folder) is { } fault)
        {
            throw new StoreUnavailableException($"{fault}.");
        }

        var file = new StoreFile(folder);
        var writer = new StoreWriter(file, options, io);
        StoreUnavailableException? trouble = null;
        try
        {
            writer.Open();
        }
        catch (StoreUnavailableException caught) when (mayWait && caught.IsOfDisk)
        {
            trouble = caught;
            file.IsFrozen = true;
        }
        catch
        {
            writer.Dispose();
            throw;
        }

        if (writer.Quarantined is { } sentence)
        {
            log.Quarantined(sentence);
        }

        var store = new WatchStore(file, writer, options, io, log);
        if (trouble is null)
        {
            log.Opened(folder, writer.Run, Migrations.Newest);
        }
        else
        {
            store._committer.NoteNotOpened(trouble);
        }

        return store;
    }

    /// <summary>Hands a reading over; never waits. It is on disk within one commit interval.</summary>
    /// <returns>False when the store is closed, or the buffer was full and its oldest reading was dropped for this one.</returns>
    public bool Enqueue(Measurement measurement)
    {
        if (IsClosed)
        {
            return false;
        }

        var (droppedOldest, isUrgent) = _committer.Add(measurement);
        if (isUrgent)
        {
            _changed.Set();
        }

        return !droppedOldest;
    }

    /// <summary>
    /// Runs <paramref name="work"/> on the writer in a transaction and completes when that is on disk (synchronous FULL). Readings that wait for
    /// their interval are left waiting, so that an alarm is on disk as soon as can be. What the work throws is thrown here and undoes only that work. Where the writer stage does not run, as in a
    /// verb or while the daemon stops, the write commits by itself.
    /// </summary>
    /// <exception cref="StoreUnavailableException">
    /// It was not committed: the disk refused it, the store is closed, or too many writes wait. Or the disk did not answer within
    /// <see cref="StoreOptions.WriteTimeout"/>; the sentence then says whether it may still get there.
    /// </exception>
    public Task<T> WriteAsync<T>(Func<StoreTransaction, T> work, CancellationToken cancel) => QueueAsync(work, withReadings: false, cancel);

    /// <inheritdoc cref="WriteAsync{T}"/>
    public Task WriteAsync(Action<StoreTransaction> work, CancellationToken cancel) => WriteAsync(
        transaction =>
        {
            work(transaction);
            return true;
        },
        cancel);

    private async Task<T> QueueAsync<T>(Func<StoreTransaction, T> work, bool withReadings, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        T result = default!;
        var answer = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        var write = new UrgentWrite(
            transaction => result = work(transaction),
            () => answer.TrySetResult(result),
            reason => answer.TrySetException(reason),
            withReadings);
        if (!_committer.TryAdd(write))
        {
            throw new StoreUnavailableException(
                $"Store in '{_file.Folder}': tried to write; {StoreCommitter.WaitingWrites} writes wait already; this one was refused.");
        }

        _changed.Set();
        try
        {
            if (_writing.CurrentCount > 0)
            {
                await Task.Run(CommitUnattended, cancel).WaitAsync(_options.WriteTimeout, _io, cancel);
            }

            return await answer.Task.WaitAsync(_options.WriteTimeout, _io, cancel);
        }
        catch (TimeoutException caught)
        {
            var fate = write.TryAbandon() ? "it was given up" : "it may still get there";
            throw new StoreUnavailableException(
                $"Store in '{_file.Folder}': tried to write; the disk has not answered for {_options.WriteTimeout.TotalSeconds} s; {fate}.", caught);
        }
        catch (OperationCanceledException)
        {
            write.TryAbandon();
            throw;
        }
    }

    /// <summary>Completes when every reading offered before is on disk; for what must not outrun the buffer.</summary>
    /// <exception cref="StoreUnavailableException">As <see cref="WriteAsync{T}"/>.</exception>
    public Task FlushAsync(CancellationToken cancel) => QueueAsync(static _ => 0, withReadings: true, cancel);

    /// <summary>The writer stage. When it is cancelled it commits everything and returns; the store stays open until it is disposed.</summary>
    public async Task RunAsync(CancellationToken cancel, Pulse? pulse = null)
    {
        await Task.CompletedTask.ConfigureAwait(ConfigureAwaitOptions.ForceYielding);
        if (!await _writing.WaitAsync(_options.WriteTimeout, CancellationToken.None))
        {
            throw new InvalidOperationException($"Store in '{_file.Folder}': tried to start its writer; one runs already.");
        }

        try
        {
            while (!cancel.IsCancellationRequested)
            {
                pulse?.Tick();
                if (_committer.UntilLook is { Ticks: > 0 } wait)
                {
                    await _changed.WaitAsync(wait, _io, cancel).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
                }

                _committer.CommitWhatIsDue();
            }

            _committer.CommitAll();
        }
        finally
        {
            _writing.Release();
        }

        CommitUnattended();
    }

    /// <summary>A short-lived connection for reading what is committed.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be read now.</exception>
    public StoreReader OpenReader() => new(_file);

    /// <summary>Commits what still waits, closes the file and gives the folder back. The writer stage must have returned.</summary>
    public async ValueTask DisposeAsync()
    {
        if (!await _writing.WaitAsync(_options.WriteTimeout))
        {
            throw new InvalidOperationException($"Store in '{_file.Folder}': tried to close it while its writer runs; wanted the writer stopped first.");
        }

        try
        {
            if (!IsClosed)
            {
                Close();
            }
        }
        finally
        {
            _writing.Release();
        }

        CommitUnattended();
    }

    private bool IsClosed => Volatile.Read(ref _closed) != 0;

    /// <summary>Serves urgent work while no stage does. Who adds work looks here after adding, who stops serving looks here after stopping, so none is left lying.</summary>
    private void CommitUnattended()
    {
        while (_committer.HasUrgent && _writing.Wait(0))
        {
            try
            {
                if (IsClosed)
                {
                    _committer.Refuse(new($"Store in '{_file.Folder}': tried to write; the store is closed; nothing was written."));
                }
                else
                {
                    _committer.CommitAll();
                }
            }
            finally
            {
                _writing.Release();
            }
        }
    }

    private void Close()
    {
        Volatile.Write(ref _closed, 1);
        if (_committer.CommitAll())
        {
            try
            {
                _writer.MarkEnd();
            }
            catch (StoreUnavailableException)
            {
                // The mark only tells a stop from a kill; everything that matters is on disk.
            }
        }
        else if (_committer.Buffered > 0)
        {
            _log.LostAtStop(_file.Folder, _committer.Buffered);
        }

        _writer.Dispose();
        _log.Closed(_file.Folder);
    }
}
