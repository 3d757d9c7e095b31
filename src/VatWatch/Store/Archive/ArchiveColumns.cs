using System.IO.Compression;
using Parquet;
using Parquet.Schema;
using VatWatch.Measurements;

namespace VatWatch.Store.Archive;

/// <summary>The columns of an archive file and how readings go into them and come back. Layout in FORMAT.md of this folder.</summary>
internal static class ArchiveColumns
{
    private static readonly DataField<long> Time = new("time", false);
    private static readonly DataField<int> Order = new("order", false);
    private static readonly DataField<string> Probe = new("probe", false);
    private static readonly DataField<string> MeasuresWord = new("measures", false);
    private static readonly DataField<string> Unit = new("unit", false);
    private static readonly DataField<double> Raw = new("raw", true);
    private static readonly DataField<double> Value = new("value", true);
    private static readonly DataField<bool> NoValue = new("noValue", false);
    private static readonly DataField<string> QualityWord = new("quality", false);
    private static readonly DataField<string> Reason = new("reason", true);
    private static readonly DataField<long> Calibration = new("calibration", true);
    private static readonly DataField<bool> UtcTrusted = new("utcTrusted", false);
    private static readonly DataField<long> Run = new("run", false);
    private static readonly DataField<long> Offset = new("clockOffset", false);

    /// <summary>All of them.</summary>
    public static ParquetSchema Schema { get; } = new(
        Time, Order, Probe, MeasuresWord, Unit, Raw, Value, NoValue, QualityWord, Reason, Calibration, UtcTrusted, Run, Offset);

    /// <summary>
    /// Differences of times take 2 bytes; the clocks' offset compresses best with its bytes apart; the rest are dictionaries, or numbers that
    /// repeat. Measured in FORMAT.md.
    /// </summary>
    public static ParquetOptions Options()
    {
        var options = new ParquetOptions { CompressionMethod = CompressionMethod.Zstd, CompressionLevel = CompressionLevel.SmallestSize };
        options.ColumnEncodingHints[Time.Path.ToString()] = EncodingHint.DeltaBinaryPacked;
        options.ColumnEncodingHints[Offset.Path.ToString()] = EncodingHint.ByteSplitStream;
        foreach (var words in (DataField[])[Probe, MeasuresWord, Unit, QualityWord, Reason])
        {
            options.ColumnEncodingHints[words.Path.ToString()] = EncodingHint.Dictionary;
        }

        return options;
    }

    /// <summary>Writes one row group.</summary>
    public static async Task WriteAsync(ParquetRowGroupWriter group, IReadOnlyList<StoredMeasurement> rows)
    {
        Measurement[] all = [.. rows.Select(row => row.Measurement)];
        await group.WriteAsync<long>(Time, rows.Select(row => UnixMicros(row.Key)).ToArray());
        await group.WriteAsync<int>(Order, rows.Select(row => (int)(row.Key - MeasurementKey.First(MeasurementKey.MicrosOf(row.Key)))).ToArray());
        await group.WriteAsync(Probe, Words(all, m => m.Probe.Value));
        await group.WriteAsync(MeasuresWord, Words(all, m => m.Quantity.Word()));
        await group.WriteAsync(Unit, Words(all, m => m.Quantity.Unit()));
        await group.WriteAsync<double>(Raw, all.Select(m => m.Raw).ToArray());
        await group.WriteAsync<double>(Value, all.Select(m => Same(m.Raw, m.Value) ? null : m.Value).ToArray());
        await group.WriteAsync<bool>(NoValue, all.Select(m => m.Value is null).ToArray());
        await group.WriteAsync(QualityWord, Words(all, m => m.Quality.Word()));
        await group.WriteAsync(Reason, Words(all, m => m.Reason));
        await group.WriteAsync<long>(Calibration, all.Select(m => m.Calibration).ToArray());
        await group.WriteAsync<bool>(UtcTrusted, all.Select(m => m.Stamp.UtcTrusted).ToArray());
        await group.WriteAsync<long>(Run, rows.Select(row => row.Run).ToArray());
        await group.WriteAsync<long>(Offset, rows.Select(row => UnixMicros(row.Key) - MeasurementKey.Micros(row.Measurement.Stamp.Monotonic)).ToArray());
    }

    /// <summary>Reads one row group, in the order in which it was written.</summary>
    /// <param name="file">The file.</param>
    /// <param name="group">Number of the row group.</param>
    /// <param name="vat">The vat, which its name and not its rows tell.</param>
    /// <param name="probeRow">Row of a probe's dictionary in the store of today; 0 for one it does not know.</param>
    public static async Task<List<StoredMeasurement>> ReadAsync(
        ParquetReader file, int group, VatId vat, Func<ProbeId, Quantity, long> probeRow)
    {
        var from = file.OpenRowGroupReader(group);
        if (from.RowCount is < 0 or > ArchiveWriter.GroupRows)
        {
            throw new InvalidDataException($"row group {group} is said to hold {from.RowCount} readings; wanted at most {ArchiveWriter.GroupRows}");
        }

        var count = (int)from.RowCount;
        var (time, order, run, offset) = (new long[count], new int[count], new long[count], new long[count]);
        var (probe, measures, quality, reason) = (new string?[count], new string?[count], new string?[count], new string?[count]);
        var (raw, value, calibration) = (new double?[count], new double?[count], new long?[count]);
        var (noValue, trusted) = (new bool[count], new bool[count]);
        await from.ReadAsync<long>(Time, time.AsMemory());
        await from.ReadAsync<int>(Order, order.AsMemory());
        await from.ReadAsync(Probe, probe.AsMemory());
        await from.ReadAsync(MeasuresWord, measures.AsMemory());
        await from.ReadAsync<double>(Raw, raw.AsMemory());
        await from.ReadAsync<double>(Value, value.AsMemory());
        await from.ReadAsync<bool>(NoValue, noValue.AsMemory());
        await from.ReadAsync(QualityWord, quality.AsMemory());
        await from.ReadAsync(Reason, reason.AsMemory());
        await from.ReadAsync<long>(Calibration, calibration.AsMemory());
        await from.ReadAsync<bool>(UtcTrusted, trusted.AsMemory());
        await from.ReadAsync<long>(Run, run.AsMemory());
        await from.ReadAsync<long>(Offset, offset.AsMemory());

        var rows = new List<StoredMeasurement>(count);
        for (var i = 0; i < count; i++)
        {
            var (id, kind) = (new ProbeId(probe[i]!), EnumWord.Parse<Quantity>(measures[i]!));
            var key = MeasurementKey.First(time[i] - EpochUnixMicros) + order[i];
            rows.Add(new(key, run[i], probeRow(id, kind), new Measurement(
                vat, id, kind,
                new Stamp(MeasurementKey.Utc(key), TimeSpan.FromTicks((time[i] - offset[i]) * TimeSpan.TicksPerMicrosecond), trusted[i]),
                raw[i], noValue[i] ? null : value[i] ?? raw[i], EnumWord.Parse<Quality>(quality[i]!), reason[i], calibration[i])));
        }

        return rows;
    }

    private static string?[] Words(Measurement[] all, Func<Measurement, string?> word) => [.. all.Select(word)];

    private static long UnixMicros(long key) => MeasurementKey.MicrosOf(key) + EpochUnixMicros;

    private static bool Same(double? raw, double? value) => raw.HasValue == value.HasValue
        && BitConverter.DoubleToInt64Bits(raw.GetValueOrDefault()) == BitConverter.DoubleToInt64Bits(value.GetValueOrDefault());

    /// <summary>Microseconds from 1970 to the epoch of the store's keys.</summary>
    private static readonly long EpochUnixMicros = (MeasurementKey.Utc(0) - DateTimeOffset.UnixEpoch).Ticks / TimeSpan.TicksPerMicrosecond;
}
