using System.Globalization;
using Parquet;

namespace VatWatch.Store.Archive;

/// <summary>An archive file that is being read. Row groups follow one another in time; only one is in memory. Not thread safe.</summary>
internal sealed class ArchiveFile : IDisposable
{
    private readonly string _path;
    private readonly ArchiveMonth _month;
    private readonly ParquetReader _reader;
    private readonly IReadOnlyList<(long First, long Last)> _groups;
    private readonly string _digest;

    private ArchiveFile(string path, ArchiveMonth month, ParquetReader reader)
    {
        (_path, _month, _reader) = (path, month, reader);
        if (!reader.CustomMetadata.TryGetValue(ArchiveWriter.GroupsKey, out var groups) || !reader.CustomMetadata.TryGetValue(ArchiveWriter.DigestKey, out var digest))
        {
            throw new InvalidDataException("it has not the marks of an archive of ours");
        }

        _digest = digest;
        _groups = [.. groups.Split(',', StringSplitOptions.RemoveEmptyEntries).Select(ParseGroup)];
        if (_groups.Count != reader.RowGroupCount)
        {
            throw new InvalidDataException($"it has {reader.RowGroupCount} row groups; wanted {_groups.Count}");
        }
    }

    /// <summary>Readings in it.</summary>
    public long Rows => _reader.RowGroups.Sum(group => group.RowCount);

    /// <summary>Key of its last reading.</summary>
    public long LastKey => _groups.Count == 0 ? long.MinValue : _groups[^1].Last;

    /// <summary>Opens a file.</summary>
    /// <exception cref="InvalidDataException">It is not a sound archive file; in a clause.</exception>
    /// <exception cref="IOException">It cannot be read.</exception>
    public static ArchiveFile Open(string path, ArchiveMonth month)
    {
        var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, BufferBytes);
        try
        {
            return Sound(path, () => new ArchiveFile(path, month, Wait(ParquetReader.CreateAsync(stream, leaveStreamOpen: false))));
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }

    /// <summary>Readings from <paramref name="from"/> up to, not including, <paramref name="to"/>, in order of their keys.</summary>
    public IEnumerable<StoredMeasurement> Read(long from, long to, Func<ProbeId, Quantity, long> probeRow)
    {
        for (var group = 0; group < _groups.Count; group++)
        {
            if (_groups[group].Last < from || _groups[group].First >= to)
            {
                continue;
            }

            var rows = ReadGroup(group, probeRow);
            rows.Sort((left, right) => left.Key.CompareTo(right.Key));
            foreach (var row in rows.Where(row => row.Key >= from && row.Key < to))
            {
                yield return row;
            }
        }
    }

    /// <summary>Reads everything; throws when it is not what was written.</summary>
    /// <exception cref="InvalidDataException">It is damaged; in a clause.</exception>
    public void Verify()
    {
        using var digest = new ArchiveDigest();
        for (var group = 0; group < _groups.Count; group++)
        {
            digest.Add(ReadGroup(group, static (_, _) => 0));
        }

        if (digest.Take() is var found && found != _digest)
        {
            throw new InvalidDataException($"its readings have the sum {found[..12]}…; wanted {_digest[..Math.Min(12, _digest.Length)]}…");
        }
    }

    public void Dispose() => Wait(_reader.DisposeAsync().AsTask());

    private List<StoredMeasurement> ReadGroup(int group, Func<ProbeId, Quantity, long> probeRow) =>
        Sound(_path, () => Wait(ArchiveColumns.ReadAsync(_reader, group, _month.Vat, probeRow)));

    private static (long First, long Last) ParseGroup(string text) => text.Split(':') is [var first, var last]
        && long.TryParse(first, CultureInfo.InvariantCulture, out var low) && long.TryParse(last, CultureInfo.InvariantCulture, out var high)
        ? (low, high)
        : throw new InvalidDataException("the list of its row groups cannot be read");

    /// <summary>A damaged file makes the Parquet library throw almost anything; where a length is damaged, that there is not so much memory.</summary>
    private static T Sound<T>(string path, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception caught) when (caught is not InvalidDataException)
        {
            throw new InvalidDataException($"'{Path.GetFileName(path)}' cannot be read ({caught.Message.TrimEnd('.')})", caught);
        }
    }

    /// <summary>The store is read synchronously, and a file opened without overlapped reading is too: these tasks are complete when they come back.</summary>
    private static T Wait<T>(Task<T> task) => task.GetAwaiter().GetResult();

    private static void Wait(Task task) => task.GetAwaiter().GetResult();

    private const int BufferBytes = 64 * 1024;
}
