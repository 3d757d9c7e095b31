using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using VatWatch.Measurements;

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
    private readonly FolderLock _lock;
    private readonly StoreOptions _options;
    private readonly TimeProvider _io;
    private readonly ILogger<WatchStore> _log;
    private readonly StoreWriter _writer;
    private readonly MeasurementBuffer _buffer;
    private readonly ConcurrentQueue<UrgentWrite> _urgent = new();
    private readonly Bell _bell = new();
    private readonly CommitPace _pace;
    private readonly StorePulse _pulse;
    private readonly SemaphoreSlim _writing = new(1, 1);
    private int _closed;

    private WatchStore(StoreFile file, FolderLock folderLock, StoreWriter writer, StoreOptions options, TimeProvider io, ILogger<WatchStore> log)
    {
        _file = file;
        _lock = folderLock;
        _options = options;
        _io = io;
        _log = log;
        _writer = writer;
        _buffer = new(options.BufferedMeasurements);
        _pace = new(options.CommitInterval, io);
        _pulse = new(io, options.WriteTimeout);
    }

    /// <summary>Row of this start of the daemon; see <see cref="StoredMeasurement.Run"/>.</summary>
    public long Run => _writer.Run;

    /// <summary>How the store is doing now.</summary>
    public StoreHealth Health => _pulse.Health(_buffer, _writer.SetAside);

    /// <summary>
    /// Opens or creates <c>vatwatch.db</c> in <paramref name="folder"/>, takes the folder for this process and brings the schema up to date.
    /// A damaged database is set aside with the date in its name and a new one is begun; <see cref="Health"/> says so.
    /// </summary>
    /// <param name="folder">The data folder; made when it is not there.</param>
    /// <param name="options">How readings are kept.</param>
    /// <param name="io">The clock of the disk: commit intervals and pauses. Not the vat's clock, which may be a fast simulation.</param>
    /// <param name="log">Where state changes are logged.</param>
    /// <exception cref="StoreInUseException">Another process has the folder.</exception>
    /// <exception cref="StoreUnavailableException">Disk, permissions, not a database, another program's, or of a newer schema.</exception>
    public static WatchStore Open(string folder, StoreOptions options, TimeProvider io, ILogger<WatchStore> log)
    {
        FolderLock taken;
        try
        {
            Directory.CreateDirectory(folder);
            taken = FolderLock.Take(folder);
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException)
        {
            throw new StoreUnavailableException(
                $"Store in '{folder}': tried to open it; {caught.Message.TrimEnd('.')}; wanted a folder that this user may write to.", caught);
        }

        var file = new StoreFile(folder);
        var writer = new StoreWriter(file, io);
        try
        {
            writer.Open();
            if (writer.SetAside is { } sentence)
            {
                log.SetAside(sentence);
            }

            log.Opened(folder, writer.Run, Migrations.Newest);
            return new WatchStore(file, taken, writer, options, io, log);
        }
        catch
        {
            writer.Dispose();
            taken.Dispose();
            throw;
        }
    }

    /// <summary>Hands a reading over; never waits. It is on disk within one commit interval.</summary>
    /// <returns>False when the store is closed, or the buffer was full and its oldest reading was dropped for this one.</returns>
    public bool Offer(Measurement measurement)
    {
        if (IsClosed)
        {
            return false;
        }

        var (count, droppedOldest) = _buffer.Add(measurement);
        if (droppedOldest)
        {
            if (_pulse.DroppingBegan())
            {
                _log.Dropping(_file.Folder, _options.BufferedMeasurements);
            }
        }
        else if (count == _options.BufferedMeasurements / 4)
        {
            _bell.Ring();
        }

        return !droppedOldest;
    }

    /// <summary>
    /// Runs <paramref name="work"/> on the writer in a transaction, together with every reading offered before, and completes when that is on
    /// disk (synchronous FULL). What the work throws is thrown here and undoes only that work.
    /// </summary>
    /// <exception cref="StoreUnavailableException">
    /// It was not committed: the disk refused it, the store is closed, or too many writes wait. Or the disk did not answer within
    /// <see cref="StoreOptions.WriteTimeout"/>; the sentence then says whether it may still get there.
    /// </exception>
    public async Task<T> WriteAsync<T>(Func<StoreTransaction, T> work, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        if (IsClosed)
        {
            throw Closed();
        }

        if (_urgent.Count >= WaitingWrites)
        {
            throw new StoreUnavailableException($"Store in '{_file.Folder}': tried to write; {WaitingWrites} writes wait already; this one was refused.");
        }

        T result = default!;
        var answer = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        var write = new UrgentWrite(
            transaction => result = work(transaction),
            () => answer.TrySetResult(result),
            reason => answer.TrySetException(reason));
        _urgent.Enqueue(write);
        if (IsClosed)
        {
            FailUrgent(Closed());
        }

        _bell.Ring();
        try
        {
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
    public Task FlushAsync(CancellationToken cancel) => WriteAsync(static _ => 0, cancel);

    /// <summary>The writer stage. When it is cancelled it commits everything, closes the store to new work and returns.</summary>
    public async Task RunAsync(CancellationToken cancel)
    {
        await Task.CompletedTask.ConfigureAwait(ConfigureAwaitOptions.ForceYielding);
        if (!_writing.Wait(0, CancellationToken.None))
        {
            throw new InvalidOperationException($"Store in '{_file.Folder}': tried to start its writer; one runs already or the store is being closed.");
        }

        try
        {
            while (!cancel.IsCancellationRequested)
            {
                if (_pace.UntilDue is { Ticks: > 0 } wait)
                {
                    await _bell.HearAsync(wait, _io, cancel);
                }

                CommitWhatIsDue();
            }

            CloseInOrder();
        }
        finally
        {
            _writing.Release();
        }
    }

    /// <summary>A short-lived connection for reading what is committed.</summary>
    /// <exception cref="StoreUnavailableException">It cannot be read now.</exception>
    public StoreReader OpenReader() => new(_file);

    /// <summary>Writes a consistent copy while everything runs; see <see cref="StoreReader.Backup"/>.</summary>
    public void Backup(string file)
    {
        using var reader = OpenReader();
        reader.Backup(file);
    }

    /// <summary>Closes the file and gives the folder back. The writer stage must have returned.</summary>
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
                CloseInOrder();
            }

            _writer.Dispose();
            _lock.Dispose();
        }
        finally
        {
            _writing.Release();
        }
    }

    private bool IsClosed => Volatile.Read(ref _closed) != 0;

    private void CommitWhatIsDue()
    {
        var isUrgent = !_urgent.IsEmpty;
        var isDue = _pace.UntilDue <= TimeSpan.Zero;
        var isLarge = !_pace.IsFailing && _buffer.Count >= _options.BufferedMeasurements / 4;
        if (!isUrgent && !isDue && !isLarge)
        {
            return;
        }

        if (!isUrgent && _buffer.Count == 0 && !_pace.IsFailing)
        {
            _pace.Succeeded();
            return;
        }

        CommitAll();
    }

    private bool CommitAll()
    {
        var urgent = TakeUrgent();
        var batch = _buffer.Peek();
        var setAsideBefore = _writer.SetAside;
        _pulse.Begin();
        try
        {
            var done = urgent.Count > 0 || batch.Measurements.Count > 0 ? _writer.Commit(urgent, batch.Measurements) : _writer.TryDisk();
            Succeeded(batch);
            foreach (var write in done)
            {
                write.Complete();
            }

            return true;
        }
        catch (Exception caught)
        {
            var pause = _pace.Failed();
            if (_pulse.Failed(caught.Message))
            {
                _log.CommitFailed(_file.Folder, batch.Measurements.Count, caught.Message, pause.TotalSeconds);
            }

            urgent.ForEach(write => write.Fail(caught));
            if (caught is not StoreUnavailableException)
            {
                throw;
            }

            return false;
        }
        finally
        {
            if (_writer.SetAside is { } sentence && sentence != setAsideBefore)
            {
                _log.SetAside(sentence);
            }
        }
    }

    private void Succeeded(MeasurementBuffer.Batch batch)
    {
        _buffer.Release(batch);
        _pace.Succeeded();
        if (_pulse.Succeeded() is { } outage)
        {
            _log.CommitResumed(_file.Folder, Math.Round(outage.TotalSeconds, 1), batch.Measurements.Count, _buffer.Dropped);
        }
    }

    private List<UrgentWrite> TakeUrgent()
    {
        var taken = new List<UrgentWrite>();
        while (_urgent.TryDequeue(out var write))
        {
            if (write.TryStart())
            {
                taken.Add(write);
            }
        }

        return taken;
    }

    private void CloseInOrder()
    {
        Volatile.Write(ref _closed, 1);
        if (CommitAll())
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
        else if (_buffer.Count > 0)
        {
            _log.LostAtStop(_file.Folder, _buffer.Count);
        }

        FailUrgent(Closed());
        _writer.Dispose();
        _log.Closed(_file.Folder);
    }

    private void FailUrgent(StoreUnavailableException reason) => TakeUrgent().ForEach(write => write.Fail(reason));

    private StoreUnavailableException Closed() => new($"Store in '{_file.Folder}': tried to write; the store is closed; nothing was written.");

    /// <summary>Far more than every alarm of every vat changing at once.</summary>
    private const int WaitingWrites = 1000;
}
