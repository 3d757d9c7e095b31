using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using VatWatch.Measurements;
using VatWatch.Store.Disk;

namespace VatWatch.Store.Writing;

/// <summary>
/// What waits for the disk, and the commits that take it there. Handing in is thread safe; committing is for one thread at a time.
/// </summary>
internal sealed class StoreCommitter(StoreFile file, StoreWriter writer, StoreOptions options, TimeProvider io, ILogger log)
{
    private readonly MeasurementBuffer _buffer = new(options.BufferedMeasurements);
    private readonly ConcurrentQueue<UrgentWrite> _urgent = new();
    private readonly CommitPace _pace = new(options.CommitInterval, io);
    private readonly CommitHistory _history = new(io, options.WriteTimeout);
    private volatile bool _begun;

    /// <summary>How it goes now.</summary>
    public StoreHealth Health => _history.Health(_buffer, writer.Quarantined) with
    {
        Unreadable = file.Unreadable.Summary is { } rows
            ? $"Store in '{file.Folder}': rows cannot be read and are passed over: {rows}; everything else goes on; 'vatwatch verify' names them."
            : null,
    };

    /// <summary>Time until the next commit is due; none when as much waits again as was just committed.</summary>
    public TimeSpan UntilDue => !_pace.IsFailing && _buffer.Count >= LargeBuffer ? TimeSpan.Zero : _pace.UntilDue;

    /// <summary>Time until it should be looked again whether a commit is due: a disk that fills up is noticed long before a long interval is over.</summary>
    public TimeSpan UntilLook => UntilDue is var due && due > LongestLook ? LongestLook : due;

    /// <summary>Notes that the file could not even be opened; it is tried again like a commit that failed.</summary>
    public void NoteNotOpened(StoreUnavailableException why)
    {
        var pause = _pace.Failed();
        _history.Failed(why.Message);
        log.CommitFailed(0, pause.TotalSeconds, why.Message);
    }

    /// <summary>Whether urgent work waits.</summary>
    public bool HasUrgent => !_urgent.IsEmpty;

    /// <summary>Readings that are not on disk.</summary>
    public int Buffered => _buffer.Count;

    /// <summary>Takes a reading.</summary>
    /// <returns>Whether the oldest was dropped for it, and whether a commit should not wait: it is the first, or the buffer has just become full enough.</returns>
    public (bool DroppedOldest, bool IsUrgent) Add(Measurement measurement)
    {
        var (count, droppedOldest) = _buffer.Add(measurement);
        if (droppedOldest && _history.DroppingBegan())
        {
            log.Dropping(file.Folder, options.BufferedMeasurements);
        }

        return (droppedOldest, count == LargeBuffer || (count == 1 && !_begun));
    }

    /// <summary>Takes urgent work; false when too much waits already.</summary>
    public bool TryAdd(UrgentWrite write)
    {
        if (_urgent.Count >= WaitingWrites)
        {
            return false;
        }

        _urgent.Enqueue(write);
        return true;
    }

    /// <summary>Commits when something urgent waits, the interval is over or the buffer has become large.</summary>
    public void CommitWhatIsDue()
    {
        // The first reading does not wait: a disk that takes nothing is known at the start and not an interval later.
        var isDue = _pace.UntilDue <= TimeSpan.Zero || (!_pace.IsFailing && _buffer.Count > 0 && !_begun);
        if (HasUrgent && !isDue && !_pace.IsFailing && _buffer.Count < LargeBuffer && !_urgent.Any(write => write.WithReadings))
        {
            CommitUrgent();
            return;
        }

        // An alarm does not wait for what follows.
        isDue |= !_pace.IsFailing && _buffer.Count > 0 && IsNearlyFull();
        if (HasUrgent || (isDue && (_buffer.Count > 0 || _pace.IsFailing)) || (!_pace.IsFailing && _buffer.Count >= LargeBuffer))
        {
            CommitAll();
        }
        else if (isDue)
        {
            _pace.Succeeded();
        }
        else if (writer.IsLookDue && !_pace.IsFailing)
        {
            CommitUrgent();
        }
    }

    /// <summary>Commits what is urgent and leaves the readings to their interval; false when the disk did not take it.</summary>
    private bool CommitUrgent() => Commit(TakeUrgent(), null, _pace.Now);

    /// <summary>Commits everything that waits; false when the disk did not take it, and then the readings wait on.</summary>
    public bool CommitAll()
    {
        var began = _pace.Now;
        return Commit(TakeUrgent(), _buffer.Peek(), began);
    }

    private bool Commit(List<UrgentWrite> urgent, MeasurementBuffer.Batch? batch, long began)
    {
        IReadOnlyList<Measurement> readings = batch?.Measurements ?? [];
        var quarantinedBefore = writer.Quarantined;
        _history.Begin();
        try
        {
            // A disk that takes what is written is only looked at when nothing waits: flash wears with each write.
            var done = urgent.Count > 0 || readings.Count > 0 || !_pace.IsFailing ? writer.Commit(urgent, readings) : writer.TryDisk();
            Succeeded(batch, began);
            foreach (var write in done)
            {
                write.Complete();
            }

            return true;
        }
        catch (Exception caught)
        {
            var pause = _pace.Failed();
            if (_history.Failed(caught.Message))
            {
                log.CommitFailed(readings.Count, pause.TotalSeconds, caught.Message);
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
            if (writer.Quarantined is { } sentence && sentence != quarantinedBefore)
            {
                log.Quarantined(sentence);
            }
        }
    }

    /// <summary>Answers every urgent work that waits with <paramref name="reason"/>.</summary>
    public void Refuse(StoreUnavailableException reason) => TakeUrgent().ForEach(write => write.Fail(reason));

    private void Succeeded(MeasurementBuffer.Batch? batch, long began)
    {
        // Readings that were left waiting keep their turn: urgent work must not put them off again and again.
        if (batch is { } written)
        {
            _begun |= written.Measurements.Count > 0;
            _buffer.Release(written);
            _pace.Succeeded(began);
        }

        if (_history.Succeeded() is { } outage)
        {
            log.CommitResumed(file.Folder, Math.Round(outage.TotalSeconds, 1), batch?.Measurements.Count ?? 0, _buffer.Dropped);
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

    /// <summary>Whether the disk has so little room that the next commit may fail: then it does not wait for its interval, so that people know at once.</summary>
    private bool IsNearlyFull()
    {
        try
        {
            return new DriveInfo(Path.GetFullPath(file.Folder)).AvailableFreeSpace < LittleRoomBytes;
        }
        catch (Exception caught) when (caught is IOException or UnauthorizedAccessException or ArgumentException)
        {
            return false;
        }
    }

    private int LargeBuffer => options.BufferedMeasurements / 4;

    /// <summary>With the daemon's own beat and the journal's two seconds for the disk this is within the 5 s in which a full disk is to be told.</summary>
    private static readonly TimeSpan LongestLook = TimeSpan.FromSeconds(1);

    /// <summary>Less than a commit of the busiest minute, log and database together.</summary>
    private const long LittleRoomBytes = 256 * 1024;

    /// <summary>Far more than every alarm of every vat changing at once.</summary>
    internal const int WaitingWrites = 1000;
}
