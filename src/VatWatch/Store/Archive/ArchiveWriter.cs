using Parquet;

namespace VatWatch.Store.Archive;

/// <summary>
/// Writes one month of one vat: under another name, flushed to the disk, read back and compared, and only then renamed. So a file that has an
/// archive's name is whole. Holds one row group in memory.
/// </summary>
internal static class ArchiveWriter
{
    /// <summary>Readings in a row group: some 10 MB in memory, and large enough to compress well.</summary>
    public const int GroupRows = 65_536;

    /// <summary>Key of the file's note of its row groups: first and last key of each.</summary>
    public const string GroupsKey = "vatwatch.groups";

    /// <summary>Key of the file's note of its check sum.</summary>
    public const string DigestKey = "vatwatch.digest";

    /// <summary>Writes <paramref name="rows"/>, which come in order of their keys.</summary>
    /// <returns>How many.</returns>
    /// <exception cref="InvalidDataException">What was read back differs from what was written.</exception>
    /// <exception cref="IOException">The disk did not take it.</exception>
    public static async Task<long> WriteAsync(string path, ArchiveMonth month, IEnumerable<StoredMeasurement> rows, CancellationToken cancel)
    {
        var part = $"{path}.part";
        try
        {
            var count = await WritePartAsync(part, month, rows, cancel);
            using (var written = ArchiveFile.Open(part, month))
            {
                written.Verify();
            }

            File.Move(part, path, overwrite: false);
            return count;
        }
        catch
        {
            File.Delete(part);
            throw;
        }
    }

    private static async Task<long> WritePartAsync(string part, ArchiveMonth month, IEnumerable<StoredMeasurement> rows, CancellationToken cancel)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(part)!);
        await using var stream = new FileStream(part, FileMode.Create, FileAccess.ReadWrite, FileShare.None);
        using var digest = new ArchiveDigest();
        var (count, groups) = (0L, new List<string>());
        await using (var writer = await ParquetWriter.CreateAsync(ArchiveColumns.Schema, stream, ArchiveColumns.Options(), append: false, cancel))
        {
            foreach (var chunk in rows.Chunk(GroupRows))
            {
                cancel.ThrowIfCancellationRequested();
                groups.Add($"{chunk[0].Key}:{chunk[^1].Key}");

                // By probe first: the values of one probe follow one another closely, which is what makes the file small.
                StoredMeasurement[] sorted = [.. chunk.OrderBy(row => row.Measurement.Probe.Value, StringComparer.Ordinal).ThenBy(row => row.Measurement.Quantity)];
                digest.Add(sorted);
                using var group = writer.CreateRowGroup();
                await ArchiveColumns.WriteAsync(group, sorted);
                count += sorted.Length;
            }

            writer.CustomMetadata = new Dictionary<string, string>
            {
                ["vatwatch.format"] = "1",
                ["vatwatch.vat"] = month.Vat.Value,
                [GroupsKey] = string.Join(',', groups),
                [DigestKey] = digest.Take(),
            };
        }

        stream.Flush(flushToDisk: true);
        return count;
    }
}
